#include <doctest/doctest.h>

#include "drawing/schematic.hpp"
#include "report/sections/sections.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

TEST_CASE("a place on a fitting is said in words of its own drawing, without the signs that part a label's lines") {
    for (const char* language : {"en", "de", "es", "fr"}) {
        const trade::Trade trade = trade::load_trade({}, language);
        std::size_t translated = 0;
        for (const trade::Kind& kind : trade.kinds) {
            const auto drawn =
                drawing::schematic(kind.schematic, [&](std::string_view key) { return trade.wording(key); });
            REQUIRE(drawn);
            for (const std::string& key : drawn->label_keys) {
                const std::string words = report::where_words(trade.wording, kind, key);
                CHECK_MESSAGE(words.find_first_of("/,") == std::string::npos, kind.id << ": " << words);
                CHECK(!words.empty());
                translated += words != key;
            }
        }
        CHECK(translated > 100);
    }
}

TEST_CASE("a word that only another kind's drawing has stays as the surveyor wrote it") {
    const trade::Trade trade = trade::load_trade({}, "en");
    const trade::Kind *wiring = trade.kind("wiring"), *drum = trade.kind("furler-drum");
    REQUIRE(wiring != nullptr);
    REQUIRE(drum != nullptr);
    CHECK(report::where_words(trade.wording, *wiring, "wire") == "wire");
    CHECK(report::where_words(trade.wording, *drum, "sleeve") == "sleeve");
    CHECK(report::where_words(trade.wording, *drum, "behind the third screw") == "behind the third screw");
}

TEST_CASE("a split pin put in from below is drawn so: its eye below, its legs above, labels still to be read") {
    const trade::Trade trade = trade::load_trade({}, "en");
    const auto words = [&](std::string_view key) { return trade.wording(key); };
    const auto text_at = [](const drawing::Schematic& drawn, std::string_view text) {
        for (const auto& item : drawn.drawing.items)
            if (const auto* label = std::get_if<drawing::Label>(&item); label != nullptr && label->text == text)
                return label->at.y.value;
        return -1.0;
    };
    drawing::SchematicFacts facts;
    for (const bool below : {false, true}) {
        facts.upside_down = below;
        const auto drawn = drawing::schematic("split-pin", words, facts);
        REQUIRE(drawn);
        CHECK((drawn->spots.at("split-eye").y.value > drawn->spots.at("legs").y.value) == below);
        CHECK((text_at(*drawn, "eye, below") > 0) == below);
        CHECK((text_at(*drawn, "eye, up") > 0) == !below);
        CHECK(text_at(*drawn, "clevis pin,") < text_at(*drawn, "end view"));
    }
}
