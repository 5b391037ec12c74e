#include "survey/photo_lines.hpp"

#include <cmath>
#include <numbers>

#include "base/text.hpp"

namespace rigdeed::survey {
namespace {

constexpr std::size_t numbers_a_line = 4;
constexpr double least_line = 0.002;  // widths of the photo

struct Direction {
    double x, y;
};
Direction direction(const PhotoLines& lines, std::size_t number) {
    const PhotoPoint &from = lines.at(2 * number), &to = lines.at(2 * number + 1);
    return {to.x - from.x, to.y - from.y};
}

bool is_in(const Fitting& fitting, std::string_view photo) {
    for (const Seen& seen : fitting.seen)
        if (seen.far == photo || seen.close == photo) return true;
    return false;
}

std::string value_text(double value, int decimals, std::string_view unit) {
    return fixed(value, decimals) + std::string(unit);
}

/// Rounded as it may be written, and a hundredth for those who round once more.
bool follows(double written, double drawn) { return std::abs(written - drawn) <= 0.06 + 0.01 * std::abs(drawn); }

class MeasureCheck {
 public:
    MeasureCheck(const Survey& survey, const std::string& file, Problems& problems)
        : survey_(survey), file_(file), problems_(problems) {}

    void check(const Fitting& fitting, const Measured& measured) {
        label_ = "fitting " + in_quotes(fitting.id) + ": " + measured.what;
        line_ = measured.line;
        if (!is_in(fitting, measured.from))
            say("from " + in_quotes(measured.from) + " is none of its photos", "name the photo in one of its <seen>");
        if (const auto length = read_measure(measured.value, Measure::length).value)
            return check_length(measured, length->value);
        if (const auto angle = read_measure(measured.value, Measure::angle).value)
            return check_angle(measured, angle->value);
        say("only lengths and angles are measured on a photo", "take from and along away");
    }

 private:
    void say(const std::string& what, std::string hint) {
        problems_.push_back({{file_, line_}, label_ + " " + what, std::move(hint)});
    }

    void check_length(const Measured& measured, double written) {
        if (measured.along.size() != 2) return say("is a length of two lines", "along has four numbers for a length");
        const PhotoScale* scale = survey_.photos.scale_of(measured.from);
        if (scale == nullptr)
            return say("is a length on a photo without a scale",
                       "write in <photos>: <scale photo=" + in_quotes(measured.from) +
                           " length=\"8 mm\" of=\"strand\" along=\"…\"/>");
        const double drawn = measured_length(measured.along, *scale).value;
        if (!follows(written, drawn))
            say("value " + in_quotes(measured.value) + " does not follow from its line and the scale",
                "they make " + value_text(drawn, 2, " mm"));
    }

    void check_angle(const Measured& measured, double written) {
        if (measured.along.size() != 4) return say("is an angle of one line", "along has eight numbers for an angle");
        const double drawn = angle_between(measured.along).value;
        if (!follows(written, drawn))
            say("value " + in_quotes(measured.value) + " does not follow from its lines",
                "they make " + value_text(drawn, 1, "°"));
    }

    const Survey& survey_;
    const std::string& file_;
    Problems& problems_;
    std::string label_;
    int line_ = 0;
};

}  // namespace

std::optional<PhotoLines> read_photo_lines(std::string_view text) {
    const auto parts = split(squeezed(text), ' ');
    if (parts.size() != numbers_a_line && parts.size() != 2 * numbers_a_line) return std::nullopt;
    PhotoLines lines;
    for (std::size_t i = 0; i + 1 < parts.size(); i += 2) {
        const auto x = read_plain_number(parts[i]), y = read_plain_number(parts[i + 1]);
        // A photo may be twice as high as wide, and a panorama more than that: as of a mark.
        if (!x || !y || *x < 0 || *x > 1 || *y < 0 || *y > 2) return std::nullopt;
        lines.push_back({*x, *y});
    }
    for (std::size_t line = 0; 2 * line < lines.size(); ++line)
        if (length_of(lines, line) < least_line) return std::nullopt;
    return lines;
}

double length_of(const PhotoLines& lines, std::size_t number) {
    const Direction along = direction(lines, number);
    return std::hypot(along.x, along.y);
}

Degrees angle_between(const PhotoLines& lines) {
    const Direction a = direction(lines, 0), b = direction(lines, 1);
    const double turned = std::atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
    return {std::abs(turned) * 180 / std::numbers::pi};
}

Millimetres measured_length(const PhotoLines& line, const PhotoScale& scale) {
    return scale.length.quantity * (length_of(line, 0) / length_of(scale.along, 0));
}

double uncertainty_of(double value, const PhotoLines& lines, const PhotoScale* scale, int pixels) {
    const auto part = [pixels](const PhotoLines& drawn, std::size_t number) {
        return end_within * std::numbers::sqrt2 / (length_of(drawn, number) * pixels);
    };
    if (lines.size() == 4) return std::hypot(part(lines, 0), part(lines, 1)) * 180 / std::numbers::pi;
    return std::abs(value) * std::hypot(part(lines, 0), scale != nullptr ? part(scale->along, 0) : 0);
}

void check_photo_measures(const Survey& survey, const std::string& file, Problems& problems) {
    MeasureCheck check(survey, file, problems);
    for (const Fitting& fitting : survey.fittings)
        for (const Measured& measured : fitting.measured)
            if (!measured.from.empty() && !measured.along.empty()) check.check(fitting, measured);
}

}  // namespace rigdeed::survey
