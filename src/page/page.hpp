#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"

/// A page for any browser: one HTML file that holds all it needs and asks for nothing from outside.
namespace rigdeed::page {

struct Page {
    std::string title;
    std::string language;              ///< of the whole page, BCP 47
    std::vector<std::string> styles;   ///< names of files under templates/page/, joined in this order
    std::vector<std::string> scripts;  ///< the same; they share one scope, nothing of it is seen from outside
    std::string body;                  ///< name of the file with the page's elements; no text of others goes into it
    std::string drawings;              ///< <symbol> elements of `drawing::svg_symbol`
    std::string data;                  ///< JSON; the scripts find it by the id "data"
    bool pictures_of_folder = false;   ///< pictures may come from files beside the page, too
};

/// The page, with a Content-Security-Policy (W3C, level 3) that allows nothing but its own script and style, each by
/// its SHA-256, and pictures.
[[nodiscard]] std::string html(const Page& page);

/// The policy alone.
[[nodiscard]] std::string policy(std::string_view style, std::string_view script, bool pictures_of_folder);

/// JSON that may stand in a <script> element of HTML: no "<", ">" or "&" in it, which stand in texts alone.
[[nodiscard]] std::string json_for_html(std::string_view json);

/// Bytes in base64 (RFC 4648, 4).
[[nodiscard]] std::string base64(const unsigned char* bytes, std::size_t count);
[[nodiscard]] std::string data_url(const Bytes& jpeg);

/// A relative path as the address of a file: each part percent-encoded (RFC 3986, 2.1).
[[nodiscard]] std::string address_of(std::string_view path);

}  // namespace rigdeed::page
