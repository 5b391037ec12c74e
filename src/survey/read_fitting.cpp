#include <algorithm>
#include <array>
#include <charconv>

#include "base/date.hpp"
#include "base/text.hpp"
#include "survey/photo_lines.hpp"
#include "survey/read_parts.hpp"

#include <algorithm>

namespace rigdeed::survey {
namespace {

constexpr std::size_t longest_words = 4000;
constexpr int outer_wires = 12;  ///< of 1x19 strand

bool is_station(std::string_view text) {
    if (text == "deck" || text == "mast" || text == "masthead") return true;
    return text.size() == 10 && text.starts_with("spreader-") && text[9] >= '1' && text[9] <= '6';
}

/// "0.42 0.55 0.08": centre right and down from the top left corner, and radius, in widths of the photo.
std::optional<Mark> read_mark(std::string_view text) {
    const auto parts = split(squeezed(text), ' ');
    if (parts.size() != 3) return std::nullopt;
    std::array<double, 3> numbers{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto measure = read_measure(parts[i] + " mm", Measure::length);
        if (!measure.value || parts[i].find('/') != std::string::npos) return std::nullopt;
        numbers[i] = measure.value->value;
    }
    const Mark mark{numbers[0], numbers[1], numbers[2]};
    const bool inside =
        mark.x >= 0 && mark.x <= 1 && mark.y >= 0 && mark.y <= 2 && mark.radius >= 0.005 && mark.radius <= 0.5;
    return inside ? std::optional(mark) : std::nullopt;
}

/// "4 5": numbers of outer wires, each once; in their order.
std::optional<std::vector<int>> read_wires(std::string_view text) {
    std::vector<int> wires;
    for (const std::string& part : split(squeezed(text), ' ')) {
        int wire = 0;
        const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), wire);
        if (error != std::errc() || end != part.data() + part.size() || wire < 1 || wire > outer_wires)
            return std::nullopt;
        if (std::find(wires.begin(), wires.end(), wire) != wires.end()) return std::nullopt;
        wires.push_back(wire);
    }
    std::sort(wires.begin(), wires.end());
    return wires.empty() ? std::nullopt : std::optional(std::move(wires));
}

Sign read_sign(const xml::Element& element, const std::string& label, const std::string& file, Problems& problems) {
    Fields fields(element, label, file, problems);
    Sign sign;
    sign.line = element.line;
    sign.code = fields.token("code");
    sign.where = fields.optional_text("where", 60);
    sign.count = fields.whole("count", 1, 999);
    sign.wires =
        fields.value<std::vector<int>>("wires", false, read_wires, "a list of outer wires, 1 to 12, each once", "4 5")
            .value_or(std::vector<int>());
    if (sign.count && !sign.wires.empty() && static_cast<std::size_t>(*sign.count) != sign.wires.size())
        fields.say(element.line,
                   "count " + std::to_string(*sign.count) + " does not agree with " +
                       std::to_string(sign.wires.size()) + " wires named",
                   "name each wire that shows the sign in wires, or leave wires away");
    sign.length = fields.quantity<Millimetres>("length", Measure::length, {0.01, 50000}, false);
    sign.mark = fields.value<Mark>("mark", false, read_mark, "a mark", "0.42 0.55 0.08");
    sign.words = squeezed(element.text);
    if (sign.words.size() > longest_words)
        fields.say(element.line, "the words are longer than 4000 bytes", "shorten them");
    fields.finish({}, true);
    return sign;
}

constexpr std::string_view lines_kind = "a line on a photo, or two", lines_example = "0.41 0.5 0.47 0.5";

std::string read_photo_name(Fields& fields, const char* name, int line) {
    std::string photo = fields.optional_text(name);
    if (!photo.empty() && !is_photo_name(photo))
        fields.say(line, std::string(name) + " " + in_quotes(photo) + " leads out of the photo folder",
                   "write the name only: A0012");
    return photo;
}

Seen read_seen(const xml::Element& element, const std::string& label, const std::string& file, Problems& problems) {
    Fields fields(element, label, file, problems);
    Seen seen;
    seen.line = element.line;
    if (const auto pass = fields.choice("pass", names(Way{}), true)) seen.pass = *pass;
    if (const auto at = fields.value<TimeOfDay>("at", false, read_time, "a time of day", "09:14")) seen.at = *at;
    if (!element.get("at"))
        fields.say(element.line, "at is missing",
                   "write when it was seen: at=\"09:14\"; or let `rigdeed pair --write` take it from its photos");
    seen.far = read_photo_name(fields, "far", element.line);
    seen.on_far = fields.value<Mark>("on-far", false, read_mark, "a mark", "0.42 0.55 0.08");
    if (seen.on_far && seen.far.empty())
        fields.say(element.line, "on-far is a place on a far photo, and there is none",
                   "name the photo in far, or take on-far away");
    seen.close = read_photo_name(fields, "close", element.line);
    seen.because = fields.optional_text("because", 500);
    fields.finish({"sign"});
    for (const xml::Element& child : element.children)
        if (child.name == "sign") seen.signs.push_back(read_sign(child, label, file, problems));
    return seen;
}

/// With a pass, of that one only.
struct NotSeen {
    std::optional<Way> pass;
    std::string reason;
};
NotSeen read_not_seen(const xml::Element& element, const std::string& label, const std::string& file,
                      Problems& problems) {
    Fields fields(element, label, file, problems);
    NotSeen not_seen{fields.choice("pass", names(Way{}), false), fields.text("reason", 500)};
    fields.finish();
    return not_seen;
}

ClimbedDespite read_climbed(const xml::Element& element, const std::string& label, const std::string& file,
                            Problems& problems) {
    Fields fields(element, label, file, problems);
    ClimbedDespite climbed{element.line, fields.token("despite"), fields.text("because", 500)};
    fields.finish();
    return climbed;
}

Measured read_measured(const xml::Element& element, const std::string& label, const std::string& file,
                       Problems& problems) {
    Fields fields(element, label, file, problems);
    Measured measured;
    measured.line = element.line;
    measured.what = fields.token("what");
    measured.value = fields.text("value");
    measured.from = read_photo_name(fields, "from", element.line);
    measured.along =
        fields.value<PhotoLines>("along", false, read_photo_lines, lines_kind, lines_example).value_or(PhotoLines());
    if (measured.from.empty() != measured.along.empty())
        fields.say(element.line, "from and along belong together",
                   "name the photo, and the line drawn on it: from=\"A0057\" along=\"0.41 0.5 0.47 0.5\"");
    fields.finish();
    if (measured.value.empty()) return measured;
    MeasureReading best;
    for (const Measure measure : {Measure::length, Measure::angle, Measure::percent, Measure::force, Measure::power,
                                  Measure::voltage, Measure::time, Measure::count}) {
        auto reading = read_measure(measured.value, measure);
        if (reading.value) return measured;
        if (best.error.what.empty()) best = std::move(reading);
    }
    fields.say(element.line, "value " + in_quotes(measured.value) + " is not a measure",
               "write a number with its unit: \"18°\", \"12 mm\", \"15 %\" or \"9.5 kN\"");
    return measured;
}

GivenVerdict read_verdict(const xml::Element& element, const std::string& label, const std::string& file,
                          Problems& problems) {
    Fields fields(element, label, file, problems);
    GivenVerdict verdict;
    verdict.line = element.line;
    if (const auto is = fields.choice("is", names(Verdict{}), true)) verdict.is = *is;
    verdict.because = fields.optional_text("because", 1000);
    fields.finish();
    return verdict;
}

Before read_before(const xml::Element& element, const std::string& label, const std::string& file, Problems& problems) {
    Fields fields(element, label, file, problems);
    Before before;
    before.line = element.line;
    before.survey = fields.token("survey");
    if (const auto verdict = fields.choice("verdict", names(Verdict{}), true)) before.verdict = *verdict;
    fields.finish({"sign"});
    for (const xml::Element& child : element.children)
        if (child.name == "sign") before.signs.push_back(read_sign(child, label, file, problems));
    return before;
}

Gone read_gone(const xml::Element& element, const std::string& label, const std::string& file, Problems& problems) {
    Fields fields(element, label, file, problems);
    Gone gone{element.line, fields.token("sign"), fields.text("because", 500)};
    fields.finish();
    return gone;
}

class FittingReader {
 public:
    FittingReader(const xml::Element& element, const std::string& file, Problems& problems)
        : element_(element),
          file_(file),
          problems_(problems),
          label_("fitting " + in_quotes(element.get("id").value_or("?"))) {}

    Fitting read() {
        Fields fields(element_, label_, file_, problems_);
        fitting_.line = element_.line;
        fitting_.id = fields.token("id");
        fitting_.kind = fields.token("kind");
        fitting_.stay = fields.optional_token("stay");
        fitting_.side = fields.choice("side", names(Side{}), false);
        fitting_.mast = fields.choice_text("mast", mast_names);
        if (auto station = fields.value<std::string>("station", true, read_station, "a station",
                                                     "deck, mast, spreader-1, masthead"))
            fitting_.station = *station;
        if (auto height = fields.quantity<Millimetres>("height", Measure::length, {-5000, 100000}, true))
            fitting_.height = *height;
        fitting_.metal = fields.optional_token("metal");
        fitting_.isolator = fields.choice("isolator", names(Isolator{}), false);
        if (!fitting_.stay.empty() && (fitting_.side || !fitting_.mast.empty()))
            fields.say(element_.line, "side and stay are both given", "leave side and mast out: the stay has them");
        fields.finish({"seen", "not-seen", "climbed", "measured", "verdict", "before", "gone"});
        for (const xml::Element& child : element_.children) read_child(child, fields);
        if (fitting_.not_seen && !fitting_.seen.empty())
            fields.say(
                element_.line, "<not-seen> and <seen> contradict each other",
                "keep <seen> if it was inspected, <not-seen> if it was not; <not-seen pass=\"down\" …> if only one "
                "pass saw it");
        for (const NotSeenIn& one : fitting_.not_seen_in)
            if (fitting_.in(one.pass) != nullptr)
                fields.say(one.line, "<not-seen> and <seen> of one pass contradict each other", "keep the true one");
        if (fitting_.not_seen_in.size() > 1 || (fitting_.not_seen && !fitting_.not_seen_in.empty()))
            fields.say(element_.line, "no pass saw it, in several words",
                       "write one <not-seen reason=\"…\"/>, no pass");
        check_gone(fields);
        return std::move(fitting_);
    }

 private:
    void check_gone(Fields& fields) const {
        for (const Gone& gone : fitting_.gone) {
            const auto is_it = [&](const Sign& sign) { return sign.code == gone.sign; };
            const bool was_there =
                fitting_.before && std::any_of(fitting_.before->signs.begin(), fitting_.before->signs.end(), is_it);
            if (!was_there)
                fields.say(gone.line, "sign " + in_quotes(gone.sign) + " is said to be gone, and was not there before",
                           "leave <gone> out, or write the sign into <before>");
            for (const Seen& seen : fitting_.seen)
                if (std::any_of(seen.signs.begin(), seen.signs.end(), is_it))
                    fields.say(gone.line, "sign " + in_quotes(gone.sign) + " is said to be gone, and was seen",
                               "keep what is true");
        }
    }

    void read_child(const xml::Element& child, Fields& fields) {
        if (child.name == "seen") {
            const Seen seen = read_seen(child, label_, file_, problems_);
            if (child.get("pass") && fitting_.in(seen.pass) != nullptr)
                fields.say(child.line, "pass " + in_quotes(name_of(seen.pass)) + " stands twice",
                           "put all signs of one pass into one <seen>");
            else fitting_.seen.push_back(seen);
        } else if (child.name == "not-seen") {
            const NotSeen said = read_not_seen(child, label_, file_, problems_);
            const bool again = said.pass ? fitting_.not_seen_on(*said.pass) != nullptr : fitting_.not_seen.has_value();
            if (again) fields.say(child.line, "a second <not-seen>", "keep one of them");
            else if (said.pass) fitting_.not_seen_in.push_back({child.line, *said.pass, said.reason});
            else fitting_.not_seen = said.reason;
        } else if (child.name == "climbed") {
            fitting_.climbed_despite.push_back(read_climbed(child, label_, file_, problems_));
        } else if (child.name == "measured") {
            fitting_.measured.push_back(read_measured(child, label_, file_, problems_));
        } else if (child.name == "verdict") {
            if (fitting_.verdict) fields.say(child.line, "a second <verdict>", "keep one of them");
            fitting_.verdict = read_verdict(child, label_, file_, problems_);
        } else if (child.name == "before") {
            if (fitting_.before) fields.say(child.line, "a second <before>", "keep that of the last survey");
            fitting_.before = read_before(child, label_, file_, problems_);
        } else if (child.name == "gone") {
            fitting_.gone.push_back(read_gone(child, label_, file_, problems_));
        }
    }

    const xml::Element& element_;
    const std::string& file_;
    Problems& problems_;
    std::string label_;
    Fitting fitting_;
};

}  // namespace

std::optional<std::string> read_station(std::string_view text) {
    return is_station(text) ? std::optional(std::string(text)) : std::nullopt;
}

Fitting read_fitting(const xml::Element& element, const std::string& file, Problems& problems) {
    return FittingReader(element, file, problems).read();
}

}  // namespace rigdeed::survey
