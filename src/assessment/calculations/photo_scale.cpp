#include "assessment/calculations/photo_scale.hpp"

#include "assessment/calculations/working.hpp"
#include "survey/photo_lines.hpp"

namespace rigdeed::assessment {
namespace {

bool by_drawn_line(const evidence::Photo& photo) {
    return photo.drawn_scale && !(photo.facts.distance && photo.facts.focal_35mm);
}

/// How fine a line shows, and whether a hairline does.
void finest_line(Working& working, std::optional<Millimetres> scale, Ratio needed, const Case& one) {
    const auto finest = scale ? std::optional(*scale * needed.value) : std::nullopt;
    working.result<Millimetres>("p · scale", "finest-line", finest, 2);
    const trade::Constant& hairline = one.trade.tables.constant("hairline");
    if (!finest || finest->value > hairline.value)
        working.note("no-hairline", {{"hairline", working.number(hairline.value, 1)}, {"source", hairline.source}});
}

/// By a line across something whose size is known.
Calculation drawn(const evidence::Photo& photo, Working working, const Case& one) {
    const survey::PhotoScale& scale = *one.survey.photos.scale_of(photo.name);
    working.formula("formula.drawn");
    const std::string survey = one.trade.wording("calc.source.survey");
    working.input<Millimetres>("L", "known-length", scale.length.quantity, 2, scale.of);
    const double pixels = survey::length_of(scale.along, 0) * photo.width;
    working.input<Ratio>("n", "line-pixels", Ratio{pixels}, 0, survey);
    const Ratio needed = working.constant<Ratio>("p", "pixels-a-line", 0);
    working.result<Millimetres>("L / n", "scale", photo.drawn_scale, 3);
    finest_line(working, photo.drawn_scale, needed, one);
    return working.done();
}

void one_photo(const evidence::Photo& photo, const survey::Fitting& fitting, const Case& one, Calculations& all) {
    const trade::Wording& words = one.trade.wording;
    Working working(one, "photo-scale");
    working.about(photo.name, {fitting.id});
    if (by_drawn_line(photo)) return all.push_back(drawn(photo, std::move(working), one));
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
    finest_line(working, scale, needed, one);
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
