#include "assessment/sizes.hpp"

#include "trade/judge.hpp"

namespace rigdeed::assessment {
namespace {

using survey::EndAt;
using survey::Fitting;
using trade::KindIs;

std::string measured(const Fitting& fitting, std::string_view what) {
    const survey::Measured* one = fitting.measure(what);
    return one != nullptr ? one->value : std::string();
}

void fill(std::string& into, const std::string& with) {
    if (into.empty()) into = with;
}

/// What the stay itself says of an end.
EndSizes as_said(const survey::Stay& stay, EndAt at) {
    const survey::StayEnd* end = stay.end(at);
    if (end == nullptr) return {};
    const auto text = [](const auto& measure) { return measure ? measure->text : std::string(); };
    return {end->terminal,
            end->form ? survey::name_of(*end->form) : std::string(),
            text(end->pin),
            end->thread,
            end->hand ? survey::name_of(*end->hand) : std::string(),
            end->toggle ? (*end->toggle ? "yes" : "no") : std::string(),
            text(end->hole)};
}

/// What a fitting at an end adds to it.
void add(EndSizes& end, const Fitting& fitting, const trade::Trade& trade) {
    const bool ends =
        trade.is_a(fitting, KindIs::terminal) || trade.is_a(fitting, KindIs::eye) || fitting.kind == "spliced-eye";
    if (ends) fill(end.terminal, fitting.kind);
    if (trade.is_a(fitting, KindIs::pin) || ends) fill(end.pin, measured(fitting, "pin-diameter"));
    if (trade.is_a(fitting, KindIs::toggle)) fill(end.toggle, "yes");
    const bool holds = fitting.kind == "chainplate" || fitting.kind == "stem-fitting" || fitting.kind == "tang";
    if (holds) fill(end.hole, measured(fitting, "hole-diameter"));
    fill(end.thread, measured(fitting, "thread-diameter"));
}

void want(StaySizes& sizes, const std::string& known, const char* key) {
    if (known.empty()) sizes.wanted.emplace_back(key);
}

}  // namespace

std::vector<StaySizes> schedule_of_sizes(const survey::Survey& survey, const trade::Trade& trade) {
    std::vector<StaySizes> all;
    for (const survey::Stay& stay : survey.stays) {
        StaySizes sizes{&stay, as_said(stay, EndAt::bottom), as_said(stay, EndAt::top), {}};
        for (const Fitting& fitting : survey.fittings)
            if (fitting.stay == stay.id)
                add(trade::at_lower_end(fitting, stay, survey, trade) ? sizes.bottom : sizes.top, fitting, trade);
        want(sizes, stay.length ? stay.length->text : std::string(), "length");
        want(sizes, sizes.bottom.terminal, "bottom-terminal");
        want(sizes, sizes.bottom.form, "bottom-form");
        want(sizes, sizes.bottom.pin, "bottom-pin");
        want(sizes, sizes.bottom.hole, "hole");
        if (stay.make != "textile")
            want(sizes, sizes.bottom.hand.empty() ? std::string() : sizes.bottom.thread, "thread");
        want(sizes, sizes.top.terminal, "top-terminal");
        want(sizes, sizes.top.form, "top-form");
        want(sizes, sizes.top.pin, "top-pin");
        all.push_back(std::move(sizes));
    }
    return all;
}

}  // namespace rigdeed::assessment
