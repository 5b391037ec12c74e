#include "page/page.hpp"

#include <doctest/doctest.h>

#include <regex>
#include <set>

#include "base/json.hpp"
#include "base/language.hpp"
#include "base/resources.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

namespace {

bool holds(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string between(const std::string& text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    const auto end = text.find(to, at + from.size());
    REQUIRE(end != std::string::npos);
    return text.substr(at + from.size(), end - at - from.size());
}

std::string hash_of(const std::string& text) {
    const Digest digest = crypto::sha256(text);
    return "sha256-" + page::base64(digest.bytes.data(), digest.bytes.size());
}

const std::string hostile = "</script><img src=x onerror=alert(1)>&quot;\" '";

page::Page sample() {
    JsonWriter json;
    json.begin_object().field("name", hostile).end();
    page::Page page;
    page.title = hostile;
    page.language = "en";
    page.styles = {"look.css"};
    page.scripts = {"elements.js", "words.js"};
    page.body = "marking.html";
    page.data = json.text();
    return page;
}

}  // namespace

TEST_CASE("base64 is that of RFC 4648, 10") {
    const auto of = [](const std::string& text) {
        return page::base64(reinterpret_cast<const unsigned char*>(text.data()), text.size());
    };
    CHECK(of("").empty());
    CHECK(of("f") == "Zg==");
    CHECK(of("fo") == "Zm8=");
    CHECK(of("foo") == "Zm9v");
    CHECK(of("foob") == "Zm9vYg==");
    CHECK(of("fooba") == "Zm9vYmE=");
    CHECK(of("foobar") == "Zm9vYmFy");
    CHECK(of("\xFF\xFE\xFD\xFC") == "//79/A==");
}

TEST_CASE("a page allows its own script and style by their digests, and nothing else") {
    const std::string html = page::html(sample());
    const std::string policy = between(html, "Content-Security-Policy\" content=\"", "\">");
    CHECK(holds(policy, "default-src 'none'"));
    CHECK(holds(policy, hash_of(between(html, "<style>", "</style>"))));
    CHECK(holds(policy, hash_of(between(html, "</script>\n<script>", "</script>"))));
    CHECK(!holds(policy, "unsafe"));
    CHECK(!holds(policy, "http"));
    CHECK(!holds(policy, "*"));
    CHECK(!holds(policy, "file:"));
    // Nothing of it is run or fetched but what the policy names.
    const std::string lower_case = lower(html);
    for (const char* bad : {" onload=", " onclick=", " src=\"", "@import", "url(", "<link", "<iframe", "<object"})
        CHECK_MESSAGE(!holds(lower_case, bad), bad);
}

TEST_CASE("texts of others are texts in a page, wherever they come in") {
    const std::string html = page::html(sample());
    CHECK(!holds(html, "<img"));
    CHECK(holds(html, "<title>&lt;/script&gt;"));
    const std::string data = between(html, "id=\"data\">", "</script>");
    CHECK(holds(data, "\\u003c/script\\u003e"));
    for (const char* bad : {"<", ">", "&"}) CHECK(!holds(data, bad));
    CHECK(page::address_of("photos/a b#?%\"<'ä.jpg") == "photos/a%20b%23%3F%25%22%3C%27%C3%A4.jpg");
    CHECK(page::address_of("../javascript:x") == "../javascript%3Ax");
}

TEST_CASE("no module of a page makes markup of a text, or code") {
    std::size_t modules = 0;
    for (const Resource& one : resources()) {
        if (!one.name.starts_with("page/") || !one.name.ends_with(".js")) continue;
        ++modules;
        const std::string text(one.bytes);
        for (const char* bad : {"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "DOMParser", "eval(",
                                "new Function", "createContextualFragment", "setTimeout(\"", "fetch(", "XMLHttpRequest",
                                "WebSocket", "sendBeacon", "import(", "\"style\"", "srcdoc"})
            CHECK_MESSAGE(!holds(text, bad), one.name, ": ", bad);
    }
    CHECK(modules >= 10);
}

namespace {

/// What its script and elements say must be among its words in each language, and each word must be said.
void check_words(const std::string& prefix, const std::set<std::string>& modules,
                 const std::set<std::string>& by_program) {
    std::string scripts;
    for (const Resource& one : resources())
        if (one.name.starts_with("page/") && modules.count(std::string(one.name.substr(5))) > 0)
            scripts += std::string(one.bytes);
    std::set<std::string> used;
    const std::regex said(
        "\\b(?:say|moveOn|undoOrRedo)\\([^\\n]*?\"([a-z][A-Za-z0-9.-]*)\"|data-(?:word|label)=\"([a-z.-]+)\"");
    for (std::sregex_iterator it(scripts.begin(), scripts.end(), said), end; it != end; ++it)
        used.insert((*it)[1].matched ? (*it)[1].str() : (*it)[2].str());
    CHECK(used.size() > 40);
    for (const std::string_view language : languages) {
        const trade::Trade trade = trade::load_trade({}, language);
        for (const std::string& key : used)
            if (key.back() != '.' && !key.starts_with("verdict."))
                CHECK_MESSAGE(
                    (trade.wording.has(prefix + key) || scripts.find("=== \"" + key + "\"") != std::string::npos),
                    language, ": ", key);
        for (const auto& [key, words] : trade.wording.all()) {
            if (!key.starts_with(prefix)) continue;
            const std::string name = key.substr(prefix.size()), family = name.substr(0, name.find('.') + 1),
                              head = name.substr(0, name.rfind('.') + 1);
            const bool named = holds(scripts, "\"" + name + "\"") || holds(scripts, "\"" + family + "\"") ||
                               holds(scripts, "\"" + head + "\"");
            CHECK_MESSAGE((named || by_program.count(name) > 0), key);
        }
    }
}

const std::set<std::string> of_check_page{"digest.js", "objects.js", "allowed.js", "der.js",  "certificate.js",
                                          "cms.js",    "token.js",   "xml.js",     "says.js", "report.js",
                                          "check.js",  "check.html", "check.css"};

}  // namespace

TEST_CASE("the marking page's words are all there, and none is there for nothing") {
    std::set<std::string> modules;
    for (const Resource& one : resources())
        if (one.name.starts_with("page/") && of_check_page.count(std::string(one.name.substr(5))) == 0)
            modules.emplace(one.name.substr(5));
    CHECK(modules.size() >= 17);
    check_words("mark.", modules, {"title", "known.pin"});
}

TEST_CASE("the check page's words are all there, and none is there for nothing") {
    for (const std::string& module : of_check_page) CHECK_MESSAGE(!resource("page/" + module).empty(), module);
    check_words("verify.", of_check_page, {"language"});
}

TEST_CASE("each fault that the check page's functions find has its words") {
    std::string scripts;
    for (const Resource& one : resources())
        if (one.name.starts_with("page/")) scripts += std::string(one.bytes);
    std::set<std::string> codes;
    const std::regex thrown("new Fault\\(\"([a-z-]+)\"");
    for (std::sregex_iterator it(scripts.begin(), scripts.end(), thrown), end; it != end; ++it)
        codes.insert((*it)[1].str());
    codes.erase("carried");  // told by the name of the file
    CHECK(codes.size() > 15);
    const trade::Trade trade = trade::load_trade();
    for (const std::string& code : codes) CHECK_MESSAGE(trade.wording.has("verify.fault." + code), code);
}
