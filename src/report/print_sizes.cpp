#include <algorithm>
#include <cmath>
#include <set>

#include "document/measures.hpp"
#include "report/compose.hpp"

namespace rigdeed::report {
namespace {

namespace measures = document::measures;

/// Printed small, and kept large enough to be enlarged on a screen.
constexpr Points second_close{110};

int pixels(Points on_paper) {
    constexpr double dots_an_inch = 300;
    return static_cast<int>(std::lround(on_paper.value / 72 * dots_an_inch));
}

}  // namespace

namespace {

/// The pass whose pair a finding shows large: the one that saw the worst, else the first with photos.
const survey::Seen* main_pass(const assessment::FittingVerdict& one) {
    const survey::Seen* main = nullptr;
    for (const survey::Seen& seen : one.fitting->seen) {
        if (seen.far.empty() && seen.close.empty()) continue;
        if (main == nullptr || trade::worst_in(one.signs, seen.pass) > trade::worst_in(one.signs, main->pass))
            main = &seen;
    }
    return main;
}

}  // namespace

evidence::ForPrint for_print(const assessment::Assessment& assessment, const survey::Survey& survey) {
    evidence::ForPrint print;
    print.detail_size = pixels(measures::detail_radius * 2);
    std::set<std::string> of_signs;
    const auto want = [&](const std::string& name, int size, bool of_sign) {
        if (name.empty()) return;
        print.sizes[name] = std::max(print.sizes[name], size);
        if (of_sign) of_signs.insert(name);
    };
    for (const survey::OtherPhoto& other : survey.photos.others) want(other.name, pixels(measures::view_photo), false);
    for (const assessment::FittingVerdict& one : assessment.fittings) {
        const bool of_sign = one.fitting->verdict || !one.signs.empty() ||
                             std::any_of(one.fitting->seen.begin(), one.fitting->seen.end(),
                                         [](const survey::Seen& seen) { return !seen.signs.empty(); });
        for (const survey::Seen& seen : one.fitting->seen) {
            const int size = pixels(one.is_finding() ? measures::finding_photo : measures::card_photo);
            const bool small = one.is_finding() && &seen != main_pass(one) && !one.signs.empty();
            want(seen.far, small ? pixels(measures::other_photo) : size, of_sign);
            want(seen.close, small ? pixels(second_close) : size, of_sign);
        }
    }
    for (const auto& [name, size] : print.sizes)
        if (!of_signs.contains(name)) print.giving_way.insert(name);
    for (const assessment::FittingVerdict& one : assessment.fittings)
        for (const trade::JudgedSign& sign : one.signs)  // the worst first
            if (sign.seen != nullptr && sign.sign->mark && !sign.seen->close.empty())
                print.details.try_emplace(sign.seen->close, *sign.sign->mark);
    return print;
}

}  // namespace rigdeed::report
