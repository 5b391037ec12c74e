#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "trade/trade.hpp"

using namespace rigdeed;
namespace fs = std::filesystem;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

template <class Rows>
std::set<std::string> ids_of(const Rows& rows) {
    std::set<std::string> ids;
    for (const auto& row : rows) ids.insert(row.id);
    return ids;
}

std::set<std::string> sign_codes() {
    std::set<std::string> codes;
    for (const trade::SignRule& rule : the_trade().any_signs) codes.insert(rule.code);
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& rule : kind.signs) codes.insert(rule.code);
    return codes;
}

/// Every text in quotes that stands in the code where `pattern` has its group.
std::set<std::string> literals(const std::string& pattern) {
    const std::regex expression(pattern), word("\"([^\"]+)\"");
    std::set<std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(std::string(RIGDEED_SOURCE_DIR) + "/src")) {
        if (entry.path().extension() != ".cpp" && entry.path().extension() != ".hpp") continue;
        std::stringstream text;
        text << std::ifstream(entry.path()).rdbuf();
        const std::string code = text.str();
        for (std::sregex_iterator match(code.begin(), code.end(), expression), end; match != end; ++match) {
            const std::string names = (*match)[1];
            for (std::sregex_iterator one(names.begin(), names.end(), word); one != end; ++one) found.insert((*one)[1]);
        }
    }
    return found;
}

void check_known(const std::set<std::string>& named, const std::set<std::string>& known, std::size_t least) {
    CHECK(named.size() >= least);
    for (const std::string& name : named) CHECK_MESSAGE(known.contains(name), name);
}

}  // namespace

TEST_CASE("each kind, role, make, material, plan and sign that the code names is in the templates") {
    check_known(literals(R"(kind(?:->id)? [=!]= ("[^"]+"))"), ids_of(the_trade().kinds), 0);
    check_known(literals(R"(role [=!]= ("[^"]+"))"), ids_of(the_trade().roles), 0);
    check_known(literals(R"(make [=!]= ("[^"]+"))"), ids_of(the_trade().makes), 1);
    check_known(literals(R"((?:alloy|metal) [=!]= ("[^"]+"))"), ids_of(the_trade().materials), 1);
    CHECK(literals(R"(make [=!]= ("[^"]+"))").contains("1x19"));
    check_known(literals(R"(yacht\.rig [=!]= ("[^"]+"))"), ids_of(the_trade().plans), 1);
    check_known(literals(R"([cC]ode [=!]= ("[^"]+"))"), sign_codes(), 0);
    check_known(literals(R"(has_sign\([^,;]+, ("[^"]+")\))"), sign_codes(), 1);
}

TEST_CASE("what rules and drawings ask of kinds, roles and signs, some have") {
    using trade::KindIs;
    for (const KindIs what : {KindIs::line, KindIs::wires, KindIs::terminal, KindIs::eye, KindIs::toggle, KindIs::pin,
                              KindIs::split_pin, KindIs::tip, KindIs::sail, KindIs::lamp})
        CHECK(std::any_of(the_trade().kinds.begin(), the_trade().kinds.end(),
                          [&](const trade::Kind& kind) { return kind.is_a(what); }));
    for (const trade::Kind& kind : the_trade().kinds) {
        if (!kind.is_a(KindIs::terminal)) continue;
        CHECK_MESSAGE(std::any_of(kind.signs.begin(), kind.signs.end(),
                                  [](const trade::SignRule& sign) { return sign.is == trade::SignIs::crack; }),
                      kind.id);
    }
    CHECK(the_trade().role("cap-shroud")->over_tips == trade::OverTips::all);
    CHECK(the_trade().role("intermediate-shroud")->over_tips == trade::OverTips::some);
    CHECK(the_trade().role("lower-shroud")->over_tips == trade::OverTips::none);
    std::set<std::string> one_side_at_a_time, calculated;
    for (const trade::Role& role : the_trade().roles)
        if (!role.pairs) one_side_at_a_time.insert(role.id);
    CHECK(one_side_at_a_time == std::set<std::string>{"running-backstay", "check-stay"});
    for (const trade::Material& material : the_trade().materials)
        if (material.calculated) calculated.insert(material.id);
    CHECK(calculated == std::set<std::string>{"316", "316L"});
    CHECK(the_trade().role("running-backstay")->foot.along == doctest::Approx(0.86));
    CHECK(the_trade().role("cap-shroud")->foot.out == doctest::Approx(0.96));
    for (const char* at_mast : {"jumper-stay", "diamond-shroud"}) CHECK(the_trade().role(at_mast)->foot.out < 0.1);
    CHECK(the_trade().material("304")->now == "316");
    CHECK(the_trade().kind("bowsprit")->stands == trade::Stands::bowsprit_end);
}
