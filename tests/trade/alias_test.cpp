#include <algorithm>

#include "survey/sample.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;
using sample::replaced;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

std::string hint_after(const std::string& from, const std::string& to) {
    const Problems problems = trade::check_names(sample::read(replaced(sample::complete(), from, to)), the_trade());
    REQUIRE(problems.size() == 1);
    return problems.front().hint;
}

template <class Rows>
bool has_id(const Rows& rows, const std::string& id) {
    return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.id == id; });
}

/// Every code that any kind has.
bool is_sign(const std::string& code) {
    return std::any_of(the_trade().kinds.begin(), the_trade().kinds.end(),
                       [&](const trade::Kind& kind) { return the_trade().sign(kind, code) != nullptr; });
}

}  // namespace

TEST_CASE("whoever writes another word of the trade is told which to write") {
    CHECK(hint_after("kind=\"tang\"", "kind=\"rigging-screw\"") == "it is called \"turnbuckle\" here");
    CHECK(hint_after("kind=\"tang\"", "kind=\"Bottlescrew\"") == "it is called \"turnbuckle\" here");
    CHECK(hint_after("kind=\"tang\"", "kind=\"wantenspanner\"") == "it is called \"turnbuckle\" here");
    CHECK(hint_after("kind=\"tang\"", "kind=\"ridoir\"") == "it is called \"turnbuckle\" here");
    CHECK(hint_after("kind=\"tang\"", "kind=\"cotter-pin\"") == "it is called \"split-pin\" here");
    CHECK(hint_after("role=\"lower-shroud\"", "role=\"headstay\"") == "it is called \"forestay\" here");
    CHECK(hint_after("make=\"textile\"", "make=\"fibre\"") == "it is called \"textile\" here");
    CHECK(hint_after("metal=\"316\"", "metal=\"stainless\"") == "it is called \"316\" here");
    CHECK(hint_after("kind=\"tang\"", "kind=\"tank\"").starts_with("the nearest: tang"));
}

TEST_CASE("a sign's other word is told where the kind has that sign") {
    const std::string plate = "far=\"F1\" close=\"C1\"/>";
    const std::string hint = hint_after(plate, "far=\"F1\" close=\"C1\"><sign code=\"fracture\">a line</sign></seen>");
    CHECK(hint == "it is called \"crack\" here");
}

TEST_CASE("every alias leads to something there is, and none is a name of another thing of its kind") {
    const trade::Trade& trade = the_trade();
    REQUIRE(trade.aliases.size() > 80);
    for (const trade::Alias& alias : trade.aliases) {
        CAPTURE(alias.id);
        const auto known = [&](const std::string& id) {
            if (alias.of == "kind") return has_id(trade.kinds, id);
            if (alias.of == "role") return has_id(trade.roles, id);
            if (alias.of == "make") return has_id(trade.makes, id);
            if (alias.of == "material") return has_id(trade.materials, id);
            return is_sign(id);
        };
        CHECK(known(alias.id));
        for (const std::string& word : alias.words) {
            CAPTURE(word);
            if (alias.of != "sign") CHECK(!known(word));
        }
    }
}
