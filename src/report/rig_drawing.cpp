#include "report/rig_drawing.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;

std::set<std::string, std::less<>> stays_to_renew(const Material& material) {
    std::set<std::string, std::less<>> stays;
    for (const FittingVerdict& one : material.assessment.fittings)
        if (assessment::renews_stay(one)) stays.insert(one.stay->id);
    return stays;
}

}  // namespace

drawing::ElevationWords elevation_words(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    return {words("rig.side-view"),
            words("rig.from-astern"),
            words("rig.port"),
            words("rig.starboard"),
            words("rig.metre"),
            {},
            {{"main", words("mast.main")}, {"mizzen", words("mast.mizzen")}, {"fore", words("mast.fore")}}};
}

std::function<drawing::Drawing(Size, std::size_t)> rig_with_findings(const Material& material) {
    std::vector<drawing::ElevationMark> marks;
    std::vector<std::string> told;
    constexpr std::size_t most = 25;  // more are a thicket: then what is urgent alone
    const bool all = material.assessment.findings.size() <= most;
    for (const std::size_t i : material.assessment.findings) {
        const FittingVerdict& one = material.assessment.fittings[i];
        if (marks.size() == most || (!all && one.verdict < Verdict::rectify)) continue;
        marks.push_back({one.fitting, one.verdict, one.number});
        told.push_back(std::to_string(one.number) + " " + one.name + ", " +
                       material.trade.wording.numbers(one.fitting->height.text));
    }
    drawing::ElevationOptions options;
    options.aloft_unseen = material.survey.attendance.climbed == survey::Climbed::stopped;
    options.renewed = stays_to_renew(material);
    drawing::ElevationWords words = elevation_words(material);
    const std::string alternative = material.trade.wording("rig.alternative", {{"findings", "{findings}"}});
    return [rig = material.rig, marks, told, alternative, options, words](Size size, std::size_t listed) mutable {
        options.size = size;
        constexpr double room = 1150;  // square points for a mark and its leader; the worst come first
        std::vector<drawing::ElevationMark> shown = marks;
        const auto fit = static_cast<std::size_t>(size.width.value * size.height.value / room);
        const std::size_t room_for = std::min(fit, listed);  // none without its line beside the rig
        if (shown.size() > room_for) shown.resize(std::max<std::size_t>(1, room_for), shown.front());
        const std::vector<std::string> named(told.begin(), told.begin() + static_cast<std::ptrdiff_t>(shown.size()));
        words.alternative = filled(alternative, {{"findings", named.empty() ? "–" : join(named, "; ")}});
        drawing::Elevation drawn = drawing::elevation(rig, shown, options, words);
        for (std::size_t i = 0; i < shown.size(); ++i)
            drawn.drawing.leads.push_back({drawn.shapes[i], drawing::elevation_mark, finding_anchor(shown[i].number)});
        return std::move(drawn.drawing);
    };
}

drawing::Drawing place_on_rig(const Material& material, const FittingVerdict& one, Size size) {
    drawing::ElevationOptions options;
    options.size = size;
    options.scale = options.air = false;
    options.from_astern = drawing::seen_from_astern(material.rig, *one.fitting);
    options.side_view = !options.from_astern;
    options.only_mast_of = one.fitting;
    const auto all = stays_to_renew(material);
    if (one.stay != nullptr && all.contains(one.stay->id)) options.renewed.insert(one.stay->id);
    drawing::ElevationWords words = elevation_words(material);
    words.alternative = place_in_words(material, one);
    words.side_view.clear();
    words.from_astern.clear();
    return drawing::elevation(material.rig, {{one.fitting, one.verdict, one.number}}, options, words).drawing;
}

std::string place_in_words(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    const bool astern = drawing::seen_from_astern(material.rig, *one.fitting);
    return words(astern ? "rig.where-astern" : "rig.where-side", {{"height", words.numbers(one.fitting->height.text)}});
}

MarginMast margin_mast(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    MarginMast mast;
    mast.top = material.rig.top();
    mast.deck = material.rig.deck;
    for (const drawing::SpreaderLine& spreader : material.rig.spreaders) mast.spreaders.push_back(spreader.z);
    mast.metre = words("rig.metre");
    mast.deck_word = words("rig.deck");
    mast.waterline_word = words("rig.waterline");
    return mast;
}

}  // namespace rigdeed::report
