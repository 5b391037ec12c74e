#include "survey/write_survey.hpp"

#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

#include "base/text.hpp"
#include "base/xml.hpp"
#include "survey/read_parts.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed::survey {
namespace {

/// The shortest digits that read back to the same number.
std::string shortest(double number) {
    std::array<char, 32> buffer{};
    const auto [end, code] =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), number, std::chars_format::fixed);
    return code == std::errc{} ? std::string(buffer.data(), end) : std::string("0");
}

/// The text so far, and which values stand in it as proposals.
struct Out {
    std::string text;
    std::set<std::pair<std::string, std::string>> proposed;  ///< place and attribute
};

/// One element, indented; attributes without a value are left out.
class Tag {
 public:
    Tag(Out& out, int depth, std::string_view name, std::string_view id = {}, std::string_view parent = {})
        : out_(out), depth_(depth), name_(name), place_(place_of(parent, name, id)) {
        out_.text += std::string(static_cast<std::size_t>(depth) * 2, ' ') + "<" + name_;
    }

    Tag& set(std::string_view name, const std::string& value) {
        if (value.empty()) return *this;
        const bool proposed = out_.proposed.contains({place_, std::string(name)});
        out_.text += " " + std::string(name) + "=\"" + xml::escaped(value) + (proposed ? " ?\"" : "\"");
        return *this;
    }
    template <class Q>
    Tag& set(std::string_view name, const std::optional<As<Q>>& measure) {
        return measure ? set(name, measure->text) : *this;
    }
    Tag& set(std::string_view name, std::optional<int> number) {
        return number ? set(name, std::to_string(*number)) : *this;
    }

    void empty() { out_.text += "/>\n"; }
    void open() { out_.text += ">\n"; }
    void text(const std::string& words) { out_.text += ">" + xml::escaped(words) + "</" + name_ + ">\n"; }
    void close() { out_.text += std::string(static_cast<std::size_t>(depth_) * 2, ' ') + "</" + name_ + ">\n"; }
    [[nodiscard]] const std::string& place() const { return place_; }

 private:
    Out& out_;
    int depth_;
    std::string name_;
    std::string place_;
};

/// Without the zeros at its end.
std::string as_written(double number) {
    std::string text = fixed(number, 6);
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
    return text;
}

std::string said_yes_or_no(bool truth) { return truth ? "yes" : "no"; }

std::string time_text(TimeOfDay time) { return time.seconds % 60 == 0 ? time.hh_mm() : time.hh_mm_ss(); }

void write_head(Out& out, const Survey& survey) {
    const Surveyor& surveyor = survey.surveyor;
    Tag(out, 1, "surveyor")
        .set("name", surveyor.name)
        .set("firm", surveyor.firm)
        .set("qualification", surveyor.qualification)
        .set("contact", surveyor.contact)
        .set("independence", surveyor.independence)
        .set("indemnity", surveyor.indemnity)
        .empty();
    Tag(out, 1, "client")
        .set("name", survey.client.name)
        .set("role", name_of(survey.client.role))
        .set("contact", survey.client.contact)
        .empty();
    const Yacht& yacht = survey.yacht;
    Tag(out, 1, "yacht")
        .set("name", yacht.name)
        .set("hin", yacht.hin)
        .set("rig", yacht.rig)
        .set("mast", yacht.mast)
        .set("built", yacht.built)
        .set("loa", yacht.loa.text)
        .set("beam", yacht.beam)
        .set("freeboard", yacht.freeboard)
        .set("displacement", yacht.displacement)
        .set("rm30", yacht.rm30)
        .set("gz30", yacht.gz30)
        .set("heel-mass", yacht.heel_mass)
        .set("heel-arm", yacht.heel_arm)
        .set("heel-angle", yacht.heel_angle)
        .set("chainplates", yacht.chainplates)
        .set("relies-on-rig", yacht.relies_on_rig ? said_yes_or_no(true) : std::string())
        .empty();
    const Attendance& attendance = survey.attendance;
    Tag(out, 1, "attendance")
        .set("on", attendance.on.iso())
        .set("place", attendance.place)
        .set("climbed", name_of(attendance.climbed))
        .set("because", attendance.because)
        .set("afloat", attendance.afloat ? said_yes_or_no(*attendance.afloat) : std::string())
        .set("weather", attendance.weather)
        .set("standards", attendance.standards)
        .empty();
}

std::string along_text(const PhotoLines& lines) {
    std::vector<std::string> numbers;
    for (const PhotoPoint& point : lines) numbers.insert(numbers.end(), {shortest(point.x), shortest(point.y)});
    return join(numbers, " ");
}

void write_history(Out& out, const History& history) {
    Tag tag(out, 1, "history");
    tag.set("sailed", history.sailed).set("statement", history.statement);
    if (history.surveys.empty() && history.repairs.empty() && history.tensions.empty()) return tag.empty();
    tag.open();
    for (const PastSurvey& past : history.surveys)
        Tag(out, 2, "survey", {}, tag.place())
            .set("on", past.on.iso())
            .set("by", past.by)
            .set("number", past.number)
            .set("left", past.left)
            .set("sha256", past.sha256)
            .empty();
    for (const Repair& repair : history.repairs)
        Tag(out, 2, "repair", {}, tag.place())
            .set("on", repair.on.iso())
            .set("done", repair.done)
            .set("by", repair.by)
            .empty();
    for (const LoggedTension& logged : history.tensions)
        Tag(out, 2, "tension", {}, tag.place())
            .set("on", logged.on.iso())
            .set("stay", logged.stay)
            .set("value", logged.tension.text)
            .set("with", logged.with)
            .empty();
    tag.close();
}

void write_photos(Out& out, const Photos& photos) {
    Tag tag(out, 1, "photos");
    std::vector<std::string> days;
    for (const Date& day : photos.dated) days.push_back(day.iso());
    tag.set("folder", photos.folder)
        .set("camera-clock", photos.camera_clock != 0 ? clock_offset_text(photos.camera_clock) : std::string())
        .set("dated", photos.undated ? "unknown" : join(days, " "))
        .set("because", photos.because);
    if (photos.others.empty() && photos.scales.empty() && photos.cameras.empty()) return tag.empty();
    tag.open();
    for (const CameraClock& camera : photos.cameras)
        Tag(out, 2, "camera").set("name", camera.name).set("clock", clock_offset_text(camera.clock)).empty();
    for (const OtherPhoto& other : photos.others)
        Tag(out, 2, "other")
            .set("name", other.name)
            .set("shows", other.shows)
            .set("is", other.hull_number ? std::string("hull-number") : std::string())
            .empty();
    for (const PhotoScale& scale : photos.scales)
        Tag(out, 2, "scale")
            .set("photo", scale.photo)
            .set("length", scale.length.text)
            .set("of", scale.of)
            .set("along", along_text(scale.along))
            .empty();
    tag.close();
}

void write_end(Out& out, const StayEnd& end, const std::string& stay) {
    Tag(out, 3, "end", {}, stay)
        .set("at", name_of(end.at))
        .set("terminal", end.terminal)
        .set("form", end.form ? name_of(*end.form) : std::string())
        .set("pin", end.pin)
        .set("thread", end.thread)
        .set("hand", end.hand ? name_of(*end.hand) : std::string())
        .set("toggle", end.toggle ? said_yes_or_no(*end.toggle) : std::string())
        .set("hole", end.hole)
        .empty();
}

void write_stay(Out& out, const Stay& stay) {
    Tag tag(out, 2, "stay", stay.id);
    tag.set("id", stay.id)
        .set("role", stay.role)
        .set("side", name_of(stay.side))
        .set("mast", stay.mast)
        .set("make", stay.make)
        .set("alloy", stay.alloy)
        .set("diameter", stay.diameter.text)
        .set("fitted", stay.fitted ? stay.fitted->iso() : std::string())
        .set("age-source", stay.age_source ? name_of(*stay.age_source) : std::string())
        .set("length", stay.length)
        .set("breaking-load", stay.breaking_load)
        .set("sailed", stay.sailed);
    if (stay.without.empty() && stay.ends.empty()) return tag.empty();
    tag.open();
    for (const StayEnd& end : stay.ends) write_end(out, end, tag.place());
    for (const Without& without : stay.without)
        Tag(out, 3, "without", {}, tag.place()).set("fitting", without.fitting).set("because", without.because).empty();
    tag.close();
}

std::string mark_text(const Mark& mark) {
    return shortest(mark.x) + " " + shortest(mark.y) + " " + shortest(mark.radius);
}

void write_sign(Out& out, const Sign& sign, const std::string& parent) {
    Tag tag(out, 4, "sign", {}, parent);
    std::vector<std::string> wires;
    for (const int wire : sign.wires) wires.push_back(std::to_string(wire));
    tag.set("code", sign.code)
        .set("where", sign.where)
        .set("count", sign.count)
        .set("wires", join(wires, " "))
        .set("length", sign.length);
    if (sign.mark) tag.set("mark", mark_text(*sign.mark));
    if (sign.words.empty()) tag.empty();
    else tag.text(sign.words);
}

void write_seen(Out& out, const Seen& seen, const std::string& parent) {
    Tag tag(out, 3, "seen", {}, parent);
    tag.set("pass", name_of(seen.pass))
        .set("at", time_text(seen.at))
        .set("far", seen.far)
        .set("on-far", seen.on_far ? mark_text(*seen.on_far) : std::string())
        .set("close", seen.close)
        .set("because", seen.because);
    if (seen.signs.empty()) return tag.empty();
    tag.open();
    for (const Sign& sign : seen.signs) write_sign(out, sign, tag.place());
    tag.close();
}

void write_fitting(Out& out, const Fitting& fitting) {
    Tag tag(out, 2, "fitting", fitting.id);
    tag.set("id", fitting.id)
        .set("kind", fitting.kind)
        .set("stay", fitting.stay)
        .set("side", fitting.side ? name_of(*fitting.side) : std::string())
        .set("mast", fitting.mast)
        .set("station", fitting.station)
        .set("height", fitting.height.text)
        .set("metal", fitting.metal)
        .set("isolator", fitting.isolator ? name_of(*fitting.isolator) : std::string());
    if (fitting.seen.empty() && !fitting.not_seen && fitting.not_seen_in.empty() && fitting.climbed_despite.empty() &&
        fitting.measured.empty() && !fitting.verdict && !fitting.before && fitting.gone.empty())
        return tag.empty();
    tag.open();
    for (const Seen& seen : fitting.seen) write_seen(out, seen, tag.place());
    const std::string& place = tag.place();
    if (fitting.not_seen) Tag(out, 3, "not-seen", {}, place).set("reason", *fitting.not_seen).empty();
    for (const NotSeenIn& one : fitting.not_seen_in)
        Tag(out, 3, "not-seen", {}, place).set("pass", name_of(one.pass)).set("reason", one.reason).empty();
    for (const ClimbedDespite& one : fitting.climbed_despite)
        Tag(out, 3, "climbed", {}, place).set("despite", one.sign).set("because", one.because).empty();
    for (const Measured& measured : fitting.measured)
        Tag(out, 3, "measured", {}, place)
            .set("what", measured.what)
            .set("value", measured.value)
            .set("from", measured.from)
            .set("along", along_text(measured.along))
            .empty();
    if (fitting.before) {
        Tag before(out, 3, "before", {}, place);
        before.set("survey", fitting.before->survey).set("verdict", name_of(fitting.before->verdict));
        if (fitting.before->signs.empty()) {
            before.empty();
        } else {
            before.open();
            for (const Sign& sign : fitting.before->signs) write_sign(out, sign, before.place());
            before.close();
        }
    }
    for (const Gone& gone : fitting.gone)
        Tag(out, 3, "gone", {}, place).set("sign", gone.sign).set("because", gone.because).empty();
    if (fitting.verdict)
        Tag(out, 3, "verdict", {}, place)
            .set("is", name_of(fitting.verdict->is))
            .set("because", fitting.verdict->because)
            .empty();
    tag.close();
}

}  // namespace

std::string write_survey(const Survey& survey) {
    Out out{"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", {}};
    for (const Open& open : survey.open)
        if (!open.value.empty()) out.proposed.emplace(open.of, open.attribute);
    Tag root(out, 0, "rig-survey");
    root.set("xmlns", std::string(survey_namespace))
        .set("number", survey.number)
        .set("purpose", name_of(survey.purpose))
        .set("units", survey.units ? name_of(*survey.units) : std::string())
        .set("replaces", survey.replaces)
        .set("written-in", survey.written_in)
        .open();
    write_head(out, survey);
    if (survey.history.line != 0) write_history(out, survey.history);
    write_photos(out, survey.photos);
    Tag rig(out, 1, "rig");
    std::vector<std::string> choices;
    for (const auto& [parameter, value] : survey.choices.value_or(std::map<std::string, std::string>()))
        choices.push_back(parameter + "=" + value);
    rig.set("choices", join(choices, " ")).open();
    for (const GaugeRow& row : survey.gauge)
        Tag(out, 2, "gauge")
            .set("diameter", row.diameter.text)
            .set("reading", as_written(row.reading))
            .set("tension", row.tension.text)
            .empty();
    for (const Stay& stay : survey.stays) write_stay(out, stay);
    for (const Absent& absent : survey.absent)
        Tag(out, 2, "absent")
            .set("kind", absent.kind)
            .set("stay", absent.stay)
            .set("role", absent.role)
            .set("side", absent.side ? name_of(*absent.side) : std::string())
            .set("mast", absent.mast)
            .set("station", absent.station)
            .set("because", absent.because)
            .empty();
    rig.close();
    Tag fittings(out, 1, "fittings");
    fittings.open();
    for (const Fitting& fitting : survey.fittings) write_fitting(out, fitting);
    fittings.close();
    root.close();
    return std::move(out.text);
}

}  // namespace rigdeed::survey
