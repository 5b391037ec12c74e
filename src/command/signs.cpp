#include <CLI/CLI.hpp>

#include <memory>

#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"

namespace rigdeed::command {
namespace {

std::string bars_words(trade::Bars bars) {
    switch (bars) {
        case trade::Bars::never: return {};
        case trade::Bars::at_deck: return ", bars climbing at the deck";
        case trade::Bars::always: return ", bars climbing";
    }
    return {};
}

std::string bars_name(trade::Bars bars) {
    switch (bars) {
        case trade::Bars::never: return "no";
        case trade::Bars::at_deck: return "at-deck";
        case trade::Bars::always: return "always";
    }
    return {};
}

const trade::Kind& find_kind(const trade::Trade& trade, const std::string& word) {
    if (const trade::Kind* kind = trade.kind(word)) return *kind;
    const auto meant = trade.meant("kind", word);
    if (meant.size() == 1 && trade.kind(meant.front()) != nullptr) return *trade.kind(meant.front());
    std::vector<std::string> ids;
    for (const trade::Kind& kind : trade.kinds) ids.push_back(kind.id);
    throw Error("there is no kind " + in_quotes(word), {},
                "the nearest: " + join(meant.empty() ? nearest(word, ids) : meant, ", ") + "; rigdeed signs lists all");
}

std::string padded(const std::string& text, std::size_t width) {
    return text + std::string(text.size() < width ? width - text.size() : 1, ' ');
}

void list_kinds(const trade::Trade& trade, const Terminal& terminal, JsonWriter& json, bool as_json) {
    for (const trade::Kind& kind : trade.kinds) {
        if (!as_json) {
            terminal.result(padded(kind.id, 24) + kind.name);
            continue;
        }
        json.begin_object().field("id", kind.id).field("name", kind.name).key("signs").begin_array();
        for (const auto* rules : {&kind.signs, &trade.any_signs})
            for (const trade::SignRule& sign : *rules) json.value(sign.code);
        json.end().end();
    }
}

void list_signs(const trade::Kind& kind, const trade::Trade& trade, const Terminal& terminal, JsonWriter& json,
                bool as_json) {
    if (!as_json) terminal.result(terminal.emphasised(kind.id + ": " + kind.name, Terminal::Emphasis::strong));
    if (!as_json && !kind.look.empty()) terminal.result(kind.look);
    for (const auto* rules : {&kind.signs, &trade.any_signs})
        for (const trade::SignRule& sign : *rules) {
            if (as_json) {
                json.begin_object()
                    .field("code", sign.code)
                    .field("verdict", survey::name_of(sign.verdict))
                    .field("bars-climbing", bars_name(sign.bars));
                json.field("name", sign.name).field("means", sign.means).end();
                continue;
            }
            terminal.result("  " + padded(sign.code, 22) + padded(survey::name_of(sign.verdict), 8) + sign.name +
                            bars_words(sign.bars));
        }
}

ExitCode signs(const std::vector<std::string>& kinds, const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    JsonWriter json;
    json.begin_array();
    if (kinds.empty()) list_kinds(trade, terminal, json, common.json);
    for (const std::string& word : kinds) list_signs(find_kind(trade, word), trade, terminal, json, common.json);
    json.end();
    if (common.json) terminal.raw_result(json.text());
    return ExitCode::done;
}

}  // namespace

void add_signs(CLI::App& app, Common& common, ExitCode& code) {
    auto kinds = std::make_shared<std::vector<std::string>>();
    CLI::App* command =
        app.add_subcommand("signs", "The signs of a kind of fitting, with their verdicts; without a kind, all kinds");
    command->add_option("KIND", *kinds, "Kind of fitting, or another word of the trade for it")->type_name("KIND");
    command->callback([kinds, &common, &code] { code = signs(*kinds, common); });
}

}  // namespace rigdeed::command
