#include "assessment/calculations/photo_scale.hpp"

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

void one_photo(const evidence::Photo& photo, const survey::Fitting& fitting, const Case& one, Calculations& all) {
    const trade::Wording& words = one.trade.wording;
    Working working(one, "photo-scale");
    working.about(photo.name, {fitting.id});
    const std::string camera = words("calc.source.camera");
    working.input<Millimetres>("D", "distance", photo.facts.distance, 0, camera);
    const auto focal = photo.facts.focal_35mm ? std::optional(Millimetres{*photo.facts.focal_35mm}) : std::nullopt;
    working.input<Millimetres>("f35", "focal-length", focal, 0, camera);
    const double pixels = std::max(photo.width, photo.height);
    working.input<Ratio>("n", "pixels", pixels > 0 ? std::optional(Ratio{pixels}) : std::nullopt, 0, camera);
    const Ratio needed = working.constant<Ratio>("p", "pixels-a-line", 0);
    if (!photo.facts.distance) working.missing("distance", words("calc.name.distance"), photo.name);
    if (!photo.facts.focal_35mm) working.missing("focal-length", words("calc.name.focal-length"), photo.name);
    const auto scale = photo.scale();
    working.result<Millimetres>("D · 36 mm / (f35 · n)", "scale", scale, 3);
    const auto finest = scale ? std::optional(*scale * needed.value) : std::nullopt;
    working.result<Millimetres>("p · scale", "finest-line", finest, 2);
    const trade::Constant& hairline = one.trade.tables.constant("hairline");
    if (!finest || finest->value > hairline.value)
        working.note("no-hairline", {{"hairline", working.number(hairline.value, 1)}, {"source", hairline.source}});
    all.push_back(working.done());
}

}  // namespace

Millimetres scale_of(const View& view) {
    return view.distance * (view.sensor / (view.focal_length * static_cast<double>(view.pixels)));
}

Millimetres widest_scale_for(Millimetres line, Ratio pixels_a_line) { return line / pixels_a_line.value; }

Millimetres farthest_for(Millimetres line, const View& view, Ratio pixels_a_line) {
    const double per_millimetre = scale_of(view) / view.distance;
    return widest_scale_for(line, pixels_a_line) / per_millimetre;
}

void photo_scales(const Case& one, Calculations& all) {
    for (const survey::Fitting& fitting : one.survey.fittings)
        for (const survey::Seen& seen : fitting.seen)
            if (const evidence::Photo* photo = one.evidence.find(seen.close); photo != nullptr && photo->usable())
                one_photo(*photo, fitting, one, all);
}

}  // namespace rigdeed::assessment
