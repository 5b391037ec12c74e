#include "page/page.hpp"

#include "base/build.hpp"
#include "base/resources.hpp"
#include "base/xml.hpp"
#include "crypto/digest.hpp"

namespace rigdeed::page {
namespace {

std::string joined(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += std::string(resource("page/" + name)) + "\n";
    return text;
}

std::string hash_of(std::string_view text) {
    const Digest digest = crypto::sha256(text);
    return "'sha256-" + base64(digest.bytes.data(), digest.bytes.size()) + "'";
}

}  // namespace

std::string base64(const unsigned char* bytes, std::size_t count) {
    static constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((count + 2) / 3 * 4);
    for (std::size_t i = 0; i < count; i += 3) {
        const std::size_t left = count - i;
        const unsigned three = static_cast<unsigned>(bytes[i]) << 16 |
                               (left > 1 ? static_cast<unsigned>(bytes[i + 1]) << 8 : 0U) |
                               (left > 2 ? static_cast<unsigned>(bytes[i + 2]) : 0U);
        text += letters[three >> 18];
        text += letters[three >> 12 & 63];
        text += left > 1 ? letters[three >> 6 & 63] : '=';
        text += left > 2 ? letters[three & 63] : '=';
    }
    return text;
}

std::string data_url(const Bytes& jpeg) { return "data:image/jpeg;base64," + base64(jpeg.data(), jpeg.size()); }

std::string address_of(std::string_view path) {
    static constexpr char digits[] = "0123456789ABCDEF";
    static constexpr std::string_view plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/";
    std::string text;
    for (const char c : path) {
        if (plain.find(c) != std::string_view::npos) {
            text += c;
            continue;
        }
        const auto byte = static_cast<unsigned char>(c);
        text += '%';
        text += digits[byte >> 4];
        text += digits[byte & 15];
    }
    return text;
}

std::string json_for_html(std::string_view json) {
    std::string text;
    text.reserve(json.size());
    for (const char c : json) {
        if (c == '<') text += "\\u003c";
        else if (c == '>') text += "\\u003e";
        else if (c == '&') text += "\\u0026";
        else text += c;
    }
    return text;
}

std::string policy(std::string_view style, std::string_view script, bool pictures_of_folder) {
    return "default-src 'none'; script-src " + hash_of(script) + "; style-src " + hash_of(style) +
           "; img-src data:" + (pictures_of_folder ? " 'self' file:" : "") + "; base-uri 'none'; form-action 'none'";
}

std::string html(const Page& page) {
    const std::string style = joined(page.styles);
    const std::string script = "\"use strict\";\n(() => {\n" + joined(page.scripts) + "})();\n";
    const std::string policy_text = policy(style, script, page.pictures_of_folder);
    return "<!doctype html>\n<html lang=\"" + xml::escaped(page.language) +
           "\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"" +
           xml::escaped(policy_text) +
           "\">\n<meta name=\"referrer\" content=\"no-referrer\">\n<meta name=\"viewport\" "
           "content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light "
           "dark\">\n<meta "
           "name=\"generator\" content=\"rigdeed " +
           std::string(version()) + "\">\n<title>" + xml::escaped(page.title) + "</title>\n<style>" + style +
           "</style>\n</head>\n<body>\n" + std::string(resource("page/" + page.body)) +
           "<svg hidden aria-hidden=\"true\" xmlns=\"http://www.w3.org/2000/svg\">" + page.drawings +
           "</svg>\n<script type=\"application/json\" id=\"data\">" + json_for_html(page.data) + "</script>\n<script>" +
           script + "</script>\n</body>\n</html>\n";
}

}  // namespace rigdeed::page
