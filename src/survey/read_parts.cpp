#include "survey/read_parts.hpp"

#include <algorithm>
#include <set>

#include "base/date.hpp"
#include "base/text.hpp"
#include "survey/photo_lines.hpp"

namespace rigdeed::survey {
namespace {

// More than any rig has: what compares each with each ends in time.
constexpr std::size_t most_stays = 1000;
constexpr std::size_t most_fittings = 5000;
constexpr std::size_t most_others = 10000;
constexpr std::size_t most_cameras = 20;

/// Whether there are so many children of one name that they are not read at all.
bool too_many(const xml::Element& element, std::string_view name, std::size_t most, Fields& fields) {
    const auto count =
        std::count_if(element.children.begin(), element.children.end(), [&](const auto& c) { return c.name == name; });
    if (static_cast<std::size_t>(count) <= most) return false;
    fields.say(
        element.line,
        "it holds " + std::to_string(count) + " <" + std::string(name) + ">; " + std::to_string(most) + " are the most",
        "is it the survey of one rig?");
    return true;
}

struct YesNo {
    bool value;
    std::string_view name;
};
const std::vector<YesNo> yes_no{{true, "yes"}, {false, "no"}};

Surveyor read_surveyor(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<surveyor>", file, problems);
    Surveyor surveyor;
    surveyor.line = element.line;
    surveyor.name = fields.text("name");
    surveyor.firm = fields.optional_text("firm");
    surveyor.qualification = fields.optional_text("qualification");
    surveyor.contact = fields.optional_text("contact");
    surveyor.independence = fields.optional_text("independence");
    surveyor.indemnity = fields.optional_text("indemnity");
    fields.finish();
    return surveyor;
}

Client read_client(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<client>", file, problems);
    Client client;
    client.line = element.line;
    client.name = fields.text("name");
    if (const auto role = fields.choice("role", names(Role{}), true)) client.role = *role;
    client.contact = fields.optional_text("contact");
    fields.finish();
    return client;
}

Yacht read_yacht(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<yacht>", file, problems);
    Yacht yacht;
    yacht.line = element.line;
    yacht.name = fields.text("name");
    yacht.hin = fields.optional_token("hin");
    yacht.rig = fields.token("rig");
    yacht.mast = fields.token("mast");
    yacht.built = fields.whole("built", 1700, 2200);
    if (auto loa = fields.quantity<Millimetres>("loa", Measure::length, {2000, 150000}, true)) yacht.loa = *loa;
    yacht.beam = fields.quantity<Millimetres>("beam", Measure::length, {500, 50000}, false);
    yacht.freeboard = fields.quantity<Millimetres>("freeboard", Measure::length, {50, 20000}, false);
    yacht.displacement = fields.quantity<Kilograms>("displacement", Measure::mass, {50, 5000000}, false);
    yacht.rm30 = fields.quantity<NewtonMetres>("rm30", Measure::moment, {100, 50000000}, false);
    yacht.gz30 = fields.quantity<Millimetres>("gz30", Measure::length, {1, 20000}, false);
    yacht.heel_mass = fields.quantity<Kilograms>("heel-mass", Measure::mass, {5, 100000}, false);
    yacht.heel_arm = fields.quantity<Millimetres>("heel-arm", Measure::length, {100, 50000}, false);
    yacht.heel_angle = fields.quantity<Degrees>("heel-angle", Measure::angle, {0.1, 30}, false);
    yacht.chainplates = fields.quantity<Millimetres>("chainplates", Measure::length, {300, 50000}, false);
    yacht.relies_on_rig = fields.choice("relies-on-rig", yes_no, false).value_or(false);
    fields.finish();
    return yacht;
}

Attendance read_attendance(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<attendance>", file, problems);
    Attendance attendance;
    attendance.line = element.line;
    if (const auto on = fields.value<Date>("on", true, read_date, "a date that exists", "2026-10-03"))
        attendance.on = *on;
    attendance.place = fields.text("place");
    if (const auto climbed = fields.choice("climbed", names(Climbed{}), true)) attendance.climbed = *climbed;
    attendance.because = fields.optional_text("because", 500);
    attendance.afloat = fields.choice("afloat", yes_no, false);
    attendance.weather = fields.optional_text("weather");
    attendance.standards = fields.optional_text("standards", 500);
    if (attendance.climbed != Climbed::yes && attendance.because.empty())
        fields.say(element.line, "climbed is not \"yes\" and because is missing",
                   "say why: because=\"the mast lay on trestles\"");
    fields.finish();
    return attendance;
}

OtherPhoto read_other(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<other>", file, problems);
    OtherPhoto photo{element.line, fields.text("name"), fields.text("shows"),
                     fields.choice_text("is", {"hull-number"}) == "hull-number"};
    if (!photo.name.empty() && !is_photo_name(photo.name))
        fields.say(element.line, "name " + in_quotes(photo.name) + " leads out of the photo folder",
                   "write the name only: A0012");
    fields.finish();
    return photo;
}

PhotoScale read_scale(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<scale>", file, problems);
    PhotoScale scale;
    scale.line = element.line;
    scale.photo = fields.text("photo");
    if (!scale.photo.empty() && !is_photo_name(scale.photo))
        fields.say(element.line, "photo " + in_quotes(scale.photo) + " leads out of the photo folder",
                   "write the name only: A0012");
    if (auto length = fields.quantity<Millimetres>("length", Measure::length, {0.1, 50000}, true))
        scale.length = *length;
    scale.of = fields.text("of", 60);
    scale.along = fields.value<PhotoLines>("along", true, read_photo_lines, "a line on a photo", "0.41 0.5 0.47 0.5")
                      .value_or(PhotoLines());
    if (scale.along.size() > 2) fields.say(element.line, "along is two lines", "a scale is one line, of four numbers");
    fields.finish();
    return scale;
}

/// "2026-10-02 2026-10-03", or "unknown".
void read_days(Fields& fields, const xml::Element& element, Photos& photos) {
    const std::string dated = fields.optional_text("dated", 2000);
    photos.because = fields.optional_text("because", 500);
    if (dated.empty() != photos.because.empty())
        fields.say(element.line, "dated and because belong together",
                   "say on which days they were taken, and why not on that of the attendance");
    photos.undated = dated == "unknown";
    if (dated.empty() || photos.undated) return;
    for (const std::string& day : split(dated, ' ')) {
        if (const auto date = read_date(day)) photos.dated.push_back(*date);
        else
            fields.say(element.line, "dated " + in_quotes(dated) + " is not a date that exists",
                       "write dated=\"2026-10-02 2026-10-03\", or dated=\"unknown\"");
    }
}

CameraClock read_camera(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<camera>", file, problems);
    CameraClock camera;
    camera.line = element.line;
    camera.name = fields.text("name");
    camera.clock = fields.value<int>("clock", true, read_clock_offset, "a clock offset", "+00:02:10").value_or(0);
    fields.finish();
    return camera;
}

Photos read_photos(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<photos>", file, problems);
    Photos photos;
    photos.line = element.line;
    photos.folder = fields.text("folder");
    if (!photos.folder.empty() && !is_photo_name(photos.folder))
        fields.say(element.line, "folder " + in_quotes(photos.folder) + " leads away from the survey file",
                   "keep the photos in a folder beside the survey file: \"photos\"");
    photos.camera_clock =
        fields.value<int>("camera-clock", false, read_clock_offset, "a clock offset", "+00:02:10").value_or(0);
    read_days(fields, element, photos);
    fields.finish({"other", "scale", "camera"});
    if (too_many(element, "camera", most_cameras, fields) || too_many(element, "other", most_others, fields) ||
        too_many(element, "scale", most_others, fields))
        return photos;
    std::set<std::string> scaled;
    for (const xml::Element& child : element.children) {
        if (child.name == "other") photos.others.push_back(read_other(child, file, problems));
        if (child.name == "camera") {
            CameraClock camera = read_camera(child, file, problems);
            if (std::any_of(photos.cameras.begin(), photos.cameras.end(),
                            [&](const CameraClock& one) { return one.name == camera.name; }))
                fields.say(child.line, "a second clock of camera " + in_quotes(camera.name), "keep one of them");
            else photos.cameras.push_back(std::move(camera));
        }
        if (child.name != "scale") continue;
        PhotoScale scale = read_scale(child, file, problems);
        if (scale.along.size() != 2) continue;  // said already
        if (scaled.insert(scale.photo).second) photos.scales.push_back(std::move(scale));
        else fields.say(child.line, "a second scale of photo " + in_quotes(scale.photo), "keep one of them");
    }
    return photos;
}

/// Reads the children of that name.
template <class T, class Read>
std::vector<T> read_list(const xml::Element& element, const std::string& name, std::size_t most,
                         const std::string& file, Problems& problems, Read read) {
    Fields fields(element, "<" + element.name + ">", file, problems);
    std::vector<T> list;
    if (too_many(element, name, most, fields)) return list;
    for (const xml::Element& child : element.children)
        if (child.name == name) list.push_back(read(child, file, problems));
    if (list.empty() && name == "fitting")
        fields.say(element.line, "there is no <" + name + "> in it", "list every " + name);
    return list;
}

}  // namespace

bool is_photo_name(std::string_view name) {
    if (name.empty() || name.size() > 200 || name.find('\\') != std::string_view::npos) return false;
    for (const std::string& part : split(name, '/'))
        if (part.empty() || part == "." || part == ".." || part.front() == ' ' || part.back() == ' ' ||
            part.back() == '.')
            return false;
    return true;
}

namespace {

Without read_without(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<without>", file, problems);
    Without without{element.line, fields.token("fitting"), fields.text("because", 500)};
    fields.finish();
    return without;
}

StayEnd read_end(const xml::Element& element, const std::string& label, const std::string& file, Problems& problems) {
    Fields fields(element, label + ", <end>", file, problems);
    StayEnd end;
    end.line = element.line;
    if (const auto at = fields.choice("at", names(EndAt{}), true)) end.at = *at;
    end.terminal = fields.optional_token("terminal");
    end.form = fields.choice("form", names(Form{}), false);
    end.pin = fields.quantity<Millimetres>("pin", Measure::length, {2, 100}, false);
    end.thread = fields.optional_text("thread", 40);
    end.hand = fields.choice("hand", names(Hand{}), false);
    end.toggle = fields.choice("toggle", yes_no, false);
    end.hole = fields.quantity<Millimetres>("hole", Measure::length, {2, 100}, false);
    fields.finish();
    return end;
}

void read_ends(const xml::Element& element, const std::string& label, const std::string& file, Stay& stay,
               Problems& problems) {
    for (const xml::Element& child : element.children) {
        if (child.name != "end") continue;
        StayEnd end = read_end(child, label, file, problems);
        if (const StayEnd* known = stay.end(end.at))
            problems.push_back(
                {{file, child.line},
                 label + ": its " + name_of(end.at) + " stands already in line " + std::to_string(known->line),
                 "keep one <end at=\"" + name_of(end.at) + "\">"});
        else stay.ends.push_back(std::move(end));
    }
}

GaugeRow read_gauge(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<gauge>", file, problems);
    GaugeRow row;
    row.line = element.line;
    if (auto d = fields.quantity<Millimetres>("diameter", Measure::length, {1, 100}, true)) row.diameter = *d;
    row.reading = fields.value<double>("reading", true, read_plain_number, "a number", "32").value_or(0);
    if (auto force = fields.quantity<Kilonewtons>("tension", Measure::force, {0.01, 1000}, true)) row.tension = *force;
    fields.finish();
    return row;
}

}  // namespace

Stay read_stay(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "stay " + in_quotes(element.get("id").value_or("?")), file, problems);
    Stay stay;
    stay.line = element.line;
    stay.id = fields.token("id");
    stay.role = fields.token("role");
    if (const auto side = fields.choice("side", names(Side{}), true)) stay.side = *side;
    stay.mast = fields.choice_text("mast", mast_names);
    stay.make = fields.token("make");
    stay.alloy = fields.token("alloy");
    if (auto d = fields.quantity<Millimetres>("diameter", Measure::length, {1, 100}, true)) stay.diameter = *d;
    stay.fitted = fields.value<PartDate>("fitted", false, read_part_date, "a date that exists", "2014-05");
    stay.age_source = fields.choice("age-source", names(AgeSource{}), false);
    stay.length = fields.quantity<Millimetres>("length", Measure::length, {100, 100000}, false);
    stay.breaking_load = fields.quantity<Kilonewtons>("breaking-load", Measure::force, {0.5, 5000}, false);
    stay.sailed = fields.quantity<NauticalMiles>("sailed", Measure::distance, {0, 1000000}, false);
    if (stay.fitted.has_value() != stay.age_source.has_value())
        fields.say(element.line, "fitted and age-source belong together",
                   "give both, or neither if the age is not known");
    fields.finish({"end", "without"});
    read_ends(element, "stay " + in_quotes(stay.id), file, stay, problems);
    for (const xml::Element& child : element.children)
        if (child.name == "without") stay.without.push_back(read_without(child, file, problems));
    return stay;
}

namespace {

Absent read_absent(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<absent>", file, problems);
    Absent absent;
    absent.line = element.line;
    absent.kind = fields.optional_token("kind");
    absent.stay = fields.optional_token("stay");
    absent.role = fields.optional_token("role");
    absent.side = fields.choice("side", names(Side{}), false);
    absent.mast = fields.choice_text("mast", mast_names);
    absent.station = fields.value<std::string>("station", false, read_station, "a station", "spreader-1").value_or("");
    absent.because = fields.text("because", 500);
    fields.finish();
    if (absent.kind.empty() && absent.role.empty())
        fields.say(element.line, "it does not say what is absent",
                   "write role=\"backstay\" for a stay, kind=\"spreader-tip\" for a fitting");
    const bool placed = absent.side || !absent.mast.empty() || !absent.station.empty() || !absent.role.empty();
    if (!absent.stay.empty() && (absent.kind.empty() || placed))
        fields.say(element.line, "stay goes with kind alone", "write stay=\"ID\" kind=\"…\" for a fitting of a stay");
    return absent;
}

/// "spreaders=2 lowers=double"
void read_choices(Fields& fields, const xml::Element& element, Survey& survey) {
    const std::string text = fields.optional_text("choices", 500);
    if (text.empty()) return;
    survey.choices.emplace();
    for (const std::string& one : split(text, ' ')) {
        const auto sign = one.find('=');
        const std::string value = sign == std::string::npos ? std::string() : one.substr(sign + 1);
        if (value.empty() || sign == 0 || !survey.choices->emplace(one.substr(0, sign), value).second)
            fields.say(element.line, "choices " + in_quotes(text) + " is not a list of choices, each once",
                       "write choices=\"spreaders=2 lowers=double\"; rigdeed plans lists them");
    }
}

void read_rig(const xml::Element& element, Survey& survey, Problems& problems) {
    Fields fields(element, "<rig>", survey.file, problems);
    survey.rig_line = element.line;
    read_choices(fields, element, survey);
    fields.finish({"gauge", "stay", "absent"});
    survey.stays = read_list<Stay>(element, "stay", most_stays, survey.file, problems, read_stay);
    survey.gauge = read_list<GaugeRow>(element, "gauge", most_stays, survey.file, problems, read_gauge);
    survey.absent = read_list<Absent>(element, "absent", most_stays, survey.file, problems, read_absent);
}

}  // namespace

void read_sections(const xml::Element& root, Survey& survey, Problems& problems) {
    const std::string& file = survey.file;
    if (const auto* element = root.child("surveyor")) survey.surveyor = read_surveyor(*element, file, problems);
    if (const auto* element = root.child("client")) survey.client = read_client(*element, file, problems);
    if (const auto* element = root.child("yacht")) survey.yacht = read_yacht(*element, file, problems);
    if (const auto* element = root.child("attendance")) survey.attendance = read_attendance(*element, file, problems);
    if (const auto* element = root.child("history")) survey.history = read_history(*element, file, problems);
    if (const auto* element = root.child("photos")) survey.photos = read_photos(*element, file, problems);
    if (const auto* element = root.child("rig")) read_rig(*element, survey, problems);
    if (const auto* element = root.child("fittings")) {
        Fields(*element, "<fittings>", file, problems).finish({"fitting"});
        survey.fittings = read_list<Fitting>(*element, "fitting", most_fittings, file, problems, read_fitting);
    }
}

}  // namespace rigdeed::survey
