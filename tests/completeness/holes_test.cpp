// Each way in which a survey was once talked into being complete, and each true inspection that once could not be said.
#include <algorithm>

#include "completeness/completeness.hpp"
#include "completeness/plausible.hpp"
#include "survey/sample.hpp"
#include "survey/whole_survey.hpp"
#include "survey/write_survey.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using completeness::Note;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

constexpr Date day{2026, 10, 3};

/// A sloop that is complete, as its text.
survey::Survey sloop(const trade::Settings& chosen = {}) {
    survey::Survey survey = trade::start_survey(*the_trade().plan("masthead-sloop"), chosen, day, the_trade());
    fill_in(survey);
    return survey;
}

struct Said {
    std::vector<std::string> gaps, remarks;
    std::vector<std::string> hints;

    [[nodiscard]] std::ptrdiff_t gaps_of(const std::string& code) const {
        return std::count(gaps.begin(), gaps.end(), code);
    }
    [[nodiscard]] std::ptrdiff_t remarks_of(const std::string& code) const {
        return std::count(remarks.begin(), remarks.end(), code);
    }
    [[nodiscard]] bool hints_at(const std::string& words) const {
        return std::any_of(hints.begin(), hints.end(),
                           [&](const std::string& one) { return one.find(words) != std::string::npos; });
    }
};

Said said(const survey::Survey& survey, const evidence::Evidence& photos, std::optional<Date> issued = {}) {
    Said result;
    const auto found = completeness::check_completeness({survey, photos, the_trade(), issued});
    for (const Note& gap : found.gaps) {
        result.gaps.push_back(gap.code);
        result.hints.push_back(gap.hint);
    }
    for (const Note& remark : found.remarks) {
        result.remarks.push_back(remark.code);
        result.hints.push_back(remark.hint);
    }
    return result;
}

Said said(const survey::Survey& survey) { return said(survey, photos_of(survey)); }

survey::Fitting& of_kind(survey::Survey& survey, const std::string& kind) {
    const auto found = std::find_if(survey.fittings.begin(), survey.fittings.end(),
                                    [&](const survey::Fitting& one) { return one.kind == kind; });
    REQUIRE(found != survey.fittings.end());
    return *found;
}

/// Photos with something changed about each.
template <class Change>
evidence::Evidence changed_photos(const survey::Survey& survey, Change change) {
    evidence::Evidence photos = photos_of(survey);
    for (evidence::Photo& photo : photos.photos) change(photo);
    return photos;
}

}  // namespace

TEST_CASE("the sloop itself is complete, without a remark") {
    CHECK(said(sloop()).gaps.empty());
    CHECK(said(sloop()).remarks.empty());
}

TEST_CASE("hole: every fitting of no stay deleted") {
    survey::Survey survey = sloop();
    const std::size_t before = survey.fittings.size();
    std::erase_if(survey.fittings, [](const survey::Fitting& one) { return one.stay.empty(); });
    CHECK(said(survey).gaps_of("fitting-missing") == static_cast<std::ptrdiff_t>(before - survey.fittings.size()));
}

TEST_CASE("hole: one spreader tip deleted, with choices said, without, and of a rig like no plan") {
    survey::Survey survey = sloop({{"spreaders", "2"}});
    std::erase(survey.fittings.emplace_back().id, '\0');
    survey.fittings.pop_back();
    survey.fittings.erase(std::find_if(survey.fittings.begin(), survey.fittings.end(),
                                       [](const survey::Fitting& one) { return one.kind == "spreader-tip"; }));
    CHECK(said(survey).gaps_of("fitting-missing") == 1);
    survey.choices.reset();
    CHECK(said(survey).gaps_of("fitting-missing") == 1);
    CHECK(said(survey).remarks_of("choices-not-said") == 1);
    survey.yacht.rig = trade::any_rig;
    CHECK(said(survey).gaps_of("fitting-missing") == 1);
}

TEST_CASE("hole: names left as a question mark, proposals never confirmed") {
    survey::Survey survey = trade::start_survey(*the_trade().plan("masthead-sloop"), {}, day, the_trade());
    const auto open = survey.open;
    fill_in(survey);
    survey.open = open;
    survey.yacht.name = "?";
    survey = sample::read(survey::write_survey(survey));
    CHECK(said(survey).gaps_of("left-open") == 1);
    CHECK(said(survey).gaps_of("unconfirmed") ==
          static_cast<std::ptrdiff_t>(survey.fittings.size() + survey.stays.size() + 4));
}

TEST_CASE("hole: last year's photos under a new date") {
    const survey::Survey survey = sloop();
    const auto photos = changed_photos(survey, [](evidence::Photo& one) { one.facts.taken->date.year = 2025; });
    CHECK(said(survey, photos).gaps_of("other-day") == 1);
    survey::Survey declared = survey;
    declared.photos.dated = {{2025, 10, 3}};
    declared.photos.because = "she was laid up since";
    CHECK(said(declared, photos).gaps_of("other-day") == 0);
    survey::Survey late = survey;
    late.attendance.on = {2027, 10, 3};
    CHECK(said(late, photos_of(survey)).gaps_of("other-day") == 1);
}

TEST_CASE("hole: no camera time anywhere") {
    const survey::Survey survey = sloop();
    const auto photos = changed_photos(survey, [](evidence::Photo& one) { one.facts.taken.reset(); });
    CHECK(said(survey, photos).gaps_of("undated") == 1);
    survey::Survey declared = survey;
    declared.photos.undated = true;
    CHECK(said(declared, photos).gaps.empty());
}

TEST_CASE("hole: attendance after the day of issue, a stay fitted after the attendance, built after it") {
    survey::Survey survey = sloop();
    CHECK(said(survey, photos_of(survey), Date{2026, 10, 1}).gaps_of("dates-contradict") == 1);
    CHECK(said(survey, photos_of(survey), Date{2026, 10, 2}).gaps.empty());  // the date line
    CHECK(said(survey, photos_of(survey), Date{2027, 9, 1}).remarks_of("issued-late") == 1);
    survey.stays.front().fitted = PartDate{2029, {}, {}};
    survey.stays.front().age_source = survey::AgeSource::invoice;
    survey.yacht.built = 2030;
    CHECK(said(survey).gaps_of("dates-contradict") == 2);
    survey.history = {1, {}, {}, {{1, {2027, {}, {}}, {}, {}, {}}}, {{1, {2026, 11, {}}, {}, {}}}, {}};
    survey.history.surveys.push_back({1, {2026, 10, 3}, {}, {}, {}});
    CHECK(said(survey).gaps_of("dates-contradict") == 4);
}

TEST_CASE("hole: wire of 8 cm and of 80 mm, 105 m over all, each with what was meant") {
    survey::Survey survey = sloop();
    survey.stays.front().diameter = {Millimetres{80}, "8 cm"};
    CHECK(said(survey).gaps_of("implausible") == 1);
    CHECK(said(survey).hints_at("did you mean \"8 mm\"?"));
    survey.stays.front().diameter = {Millimetres{80}, "80 mm"};
    CHECK(said(survey).hints_at("did you mean \"8 mm\"?"));
    survey = sloop();
    survey.yacht.loa = {Millimetres{105000}, "105 m"};
    CHECK(said(survey).gaps_of("implausible") >= 1);
    CHECK(said(survey).hints_at("did you mean \"10.5 m\"?"));
    survey = sloop();
    survey.stays.front().diameter = {Millimetres{4}, "4 mm"};
    CHECK(said(survey).gaps.empty());
    CHECK(said(survey).remarks_of("unusual") == 1);
}

TEST_CASE("what the table calls impossible is so on both sides, and farther out never milder") {
    const auto state = [](double millimetres) {
        survey::Survey survey = sloop();
        survey.stays.front().diameter = {Millimetres{millimetres}, fixed(millimetres, 1) + " mm"};
        const Said all = said(survey);
        return all.gaps_of("implausible") > 0 ? 2 : all.remarks_of("unusual") > 0 ? 1 : 0;
    };
    int last = 2;
    for (double d = 1; d <= 8; d += 0.5) {
        CHECK(state(d) <= last);
        last = state(d);
    }
    CHECK(last == 0);
    for (double d = 8; d <= 90; d += 2) {
        CHECK(state(d) >= last);
        last = state(d);
    }
    CHECK(last == 2);
}

TEST_CASE("what is usual holds what published classes, standards and arithmetic say") {
    const auto usual = [](const char* id, double value) {
        const trade::Plausible& row = the_trade().tables.plausible_of(id);
        return value >= row.usual_least && value <= row.usual_most;
    };
    // Displacement in long tons over a hundredth of the waterline's feet, cubed: 40 (racing multihulls) to 400 (the
    // heaviest cruisers); a waterline of the whole length, and of four fifths of it.
    constexpr double of_class = 1016.05 * 1e-6 * 35.3147;
    CHECK(usual("displacement-of-loa", 40 * of_class));
    CHECK(usual("displacement-of-loa", 400 * of_class));
    CHECK(usual("displacement-of-loa", 400 * of_class * 0.8 * 0.8 * 0.8));
    CHECK(!usual("displacement-of-loa", 4 * of_class));
    CHECK(usual("loa", 24000));                              // the longest of Directive 2013/53/EU
    CHECK(usual("load-of-diameter", 0.5253 * 1500 / 1000));  // form of EN 12385-2, 1x19 of 316
    CHECK(usual("load-of-diameter", 0.7854 * 1380 / 1000));  // rod
    CHECK(usual("camera-clock", 14 * 3600));                 // the most from UTC
    CHECK(!usual("camera-clock", 14 * 3600 + 1));
    CHECK(the_trade().tables.plausible_of("camera-clock").most == 26 * 3600);
    CHECK(the_trade().tables.plausible_of("sailed-a-year").most < 7 * 24 * 365);
}

TEST_CASE("hole: all heights the same, an upper terminal below its chainplate, spreaders the wrong way round") {
    survey::Survey survey = sloop();
    for (survey::Fitting& fitting : survey.fittings) fitting.height = {Millimetres{1000}, "1.00 m"};
    CHECK(said(survey).gaps_of("heights-contradict") > 1);
    survey = sloop();
    const auto upper = std::find_if(survey.fittings.begin(), survey.fittings.end(), [](const survey::Fitting& one) {
        return one.id == "cap-port-upper-swaged-terminal";
    });
    REQUIRE(upper != survey.fittings.end());
    upper->height = {Millimetres{500}, "0.5 m"};
    CHECK(said(survey).gaps_of("heights-contradict") == 1);
    survey = sloop({{"spreaders", "2"}});
    for (survey::Fitting& fitting : survey.fittings)
        if (fitting.station == "spreader-2") fitting.height = {Millimetres{3000}, "3 m"};
    CHECK(said(survey).gaps_of("heights-contradict") >= 1);
}

TEST_CASE("hole: neighbours' photos exchanged") {
    survey::Survey survey = sloop();
    const auto photos = photos_of(survey);
    std::swap(survey.fittings[3].seen[0].close, survey.fittings[4].seen[0].close);
    CHECK(said(survey, photos).remarks_of("out-of-order") == 1);
}

TEST_CASE("hole: far and close exchanged, by distance or by focal length; said to be so, they may") {
    survey::Survey survey = sloop();
    auto& seen = survey.fittings[3].seen[0];
    const auto exchange = [&](bool distance) {
        return changed_photos(survey, [&](evidence::Photo& one) {
            if (one.name != seen.close) return;
            if (distance) one.facts.distance = Millimetres{9000};
            else one.facts.focal_35mm = 12;
        });
    };
    CHECK(said(survey, exchange(true)).gaps_of("far-close-exchanged") == 1);
    auto photos = exchange(false);
    for (evidence::Photo& one : photos.photos) one.facts.distance.reset();
    CHECK(said(survey, photos).gaps_of("far-close-exchanged") == 1);
    seen.because = "a long lens from the deck";
    CHECK(said(survey, exchange(true)).gaps_of("far-close-exchanged") == 0);
}

TEST_CASE("hole: one picture under two names, its Exif changed") {
    const survey::Survey survey = sloop();
    auto photos = photos_of(survey);
    photos.photos[5].pixels = photos.photos[4].pixels;
    CHECK(said(survey, photos).gaps_of("same-picture") == 1);
}

TEST_CASE("hole: a sign without words") {
    survey::Survey survey = sloop();
    survey::Sign sign;
    sign.code = "loose";
    of_kind(survey, "light").seen[0].signs.push_back(sign);
    CHECK(said(survey).gaps_of("sign-without-words") == 1);
}

TEST_CASE("a camera's clock an hour off: the offset that fits, as a line to put in; no offset where none fits") {
    survey::Survey survey = sloop();
    auto photos = changed_photos(survey, [](evidence::Photo& one) {
        one.facts.taken = local_from_seconds(seconds_since_epoch(*one.facts.taken) + 3600);
    });
    CHECK(said(survey, photos).hints_at("camera-clock=\"-01:00:00\""));
    survey.photos.camera_clock = -3600;
    CHECK(said(survey, photos).remarks.empty());
    survey.photos.camera_clock = 0;
    for (std::size_t i = 0; i < photos.photos.size(); i += 2)
        photos.photos[i].facts.taken = local_from_seconds(seconds_since_epoch(*photos.photos[i].facts.taken) + 7200);
    CHECK(!said(survey, photos).hints_at("camera-clock="));
}

TEST_CASE("true: a rig without a second backstay, without lowers, with one cap a side") {
    survey::Survey survey = sloop({{"backstay", "twin"}});
    const auto remove_stay = [&](const std::string& role, survey::Side side) {
        const auto stay = std::find_if(survey.stays.begin(), survey.stays.end(),
                                       [&](const auto& one) { return one.role == role && one.side == side; });
        REQUIRE(stay != survey.stays.end());
        std::erase_if(survey.fittings, [&](const survey::Fitting& one) { return one.stay == stay->id; });
        survey.stays.erase(stay);
        survey::Absent absent;
        absent.role = role;
        absent.side = side;
        absent.because = "built so";
        survey.absent.push_back(absent);
    };
    remove_stay("backstay", survey::Side::port);
    remove_stay("lower-shroud", survey::Side::port);
    remove_stay("lower-shroud", survey::Side::starboard);
    CHECK(said(survey).gaps.empty());
    survey.absent.pop_back();
    CHECK(said(survey).gaps_of("stay-missing") == 1);
}

TEST_CASE("true: a soft eye over the mast in place of what the make demands") {
    survey::Survey survey = sloop();
    const std::string id = survey.stays.back().id;
    std::erase_if(survey.fittings, [&](const auto& one) { return one.stay == id && one.kind == "tang"; });
    CHECK(said(survey).gaps_of("demand-not-met") == 1);
    survey::Absent absent;
    absent.stay = id;
    absent.kind = "tang";
    absent.because = "a soft eye over the mast";
    survey.absent.push_back(absent);
    CHECK(said(survey).gaps.empty());
}

TEST_CASE("true: seen up, not down, because; climbed in spite of a bar, because; the inspection went another way") {
    survey::Survey survey = sloop();
    survey::Fitting& plate = of_kind(survey, "chainplate");
    plate.seen.pop_back();
    CHECK(said(survey).gaps_of("not-seen-down") == 1);
    plate.not_seen_in.push_back({0, survey::Way::down, "it rained"});
    CHECK(said(survey).gaps.empty());

    survey = sloop();
    survey::Sign sign;
    sign.code = "crack";
    sign.words = "A line at the pin hole.";
    survey::Fitting& cracked = of_kind(survey, "chainplate");
    cracked.seen[0].signs.push_back(sign);
    CHECK(said(survey).gaps_of("climbed-despite-bar") == 1);
    CHECK(said(survey).hints_at("<climbed despite=\"crack\""));
    cracked.climbed_despite.push_back({0, "crack", "two halyards to the bow held the mast"});
    CHECK(said(survey).gaps.empty());
    cracked.climbed_despite.front().sign = "bent";
    CHECK(said(survey).gaps_of("climbed-despite-nothing") == 1);

    survey = sloop();
    of_kind(survey, "masthead").seen[0].at = {6 * 3600};
    CHECK(said(survey).gaps_of("aloft-before-deck") == 1);
    survey.attendance.because = "the masthead first, before the wind rose";
    CHECK(said(survey, changed_photos(survey, [](auto&) {})).gaps_of("aloft-before-deck") == 0);
}

TEST_CASE("what is said to be absent and is there is a gap") {
    survey::Survey survey = sloop();
    survey::Absent absent;
    absent.kind = "masthead";
    absent.because = "none";
    survey.absent.push_back(absent);
    CHECK(said(survey).gaps_of("absent-though-there") == 1);
}

TEST_CASE("no hint tells to change or to delete what was seen") {
    survey::Survey survey = sloop();
    for (survey::Fitting& fitting : survey.fittings)
        if (fitting.seen.size() == 2) std::swap(fitting.seen[0].at, fitting.seen[1].at);
    survey::Sign sign;
    sign.code = "crack";
    of_kind(survey, "chainplate").seen[0].signs.push_back(sign);
    survey.attendance.climbed = survey::Climbed::stopped;
    for (const std::string& hint : said(survey).hints)
        for (const char* word : {"delete the <seen>", "correct the pass", "correct the times"})
            CHECK(hint.find(word) == std::string::npos);
}
