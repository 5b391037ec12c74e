#include "base/json.hpp"
#include "base/language.hpp"
#include "checking/checking.hpp"
#include "drawing/svg.hpp"
#include "drawing/verdict_shape.hpp"
#include "page/page.hpp"
#include "trade/trade.hpp"

namespace rigdeed::checking {
namespace {

constexpr std::string_view prefix = "verify.";
constexpr std::string_view answer = "answer.";

/// Answers have one part behind the prefix; what else is said with one has more.
bool is_answer(std::string_view key) {
    return key.starts_with(answer) && key.find('.', answer.size()) == std::string_view::npos;
}

void words_in(std::string_view language, JsonWriter& words, JsonWriter& answers) {
    const trade::Trade trade = trade::load_trade({}, language);
    words.key(std::string(language)).begin_object();
    answers.key(std::string(language)).begin_object();
    for (const survey::Verdict verdict : survey::worst_first) {
        const std::string key = "verdict." + survey::name_of(verdict);
        words.field(key, trade.wording(key));
    }
    words.field("form", trade.wording("form.language"));
    for (const auto& [key, text] : trade.wording.all()) {
        if (key.starts_with(prefix)) words.field(key.substr(prefix.size()), text);
        if (is_answer(key)) answers.field(key.substr(answer.size()), text);
    }
    words.end();
    answers.end();
}

std::string drawings() {
    std::string all;
    for (const survey::Verdict verdict : survey::worst_first)
        all += drawing::svg_symbol(drawing::verdict_alone(verdict), drawing::Ink::as_drawn,
                                   "verdict-" + survey::name_of(verdict));
    return all;
}

}  // namespace

std::string compose() {
    JsonWriter words, answers;
    words.begin_object();
    answers.begin_object();
    for (const std::string_view language : languages) words_in(language, words, answers);
    words.end();
    answers.end();
    page::Page page;
    page.title = "rigdeed";
    page.language = "en";
    page.styles = {"look.css", "check.css"};
    page.scripts = {"digest.js", "objects.js", "allowed.js", "der.js",      "certificate.js", "cms.js",  "token.js",
                    "xml.js",    "says.js",    "report.js",  "elements.js", "words.js",       "check.js"};
    page.body = "check.html";
    page.drawings = drawings();
    page.data = "{\"languages\":" + words.text() + ",\"answers\":" + answers.text() + "}";
    return page::html(page);
}

}  // namespace rigdeed::checking
