#include <algorithm>
#include <map>

#include "assessment/age.hpp"
#include "base/text.hpp"
#include "drawing/beads.hpp"
#include "report/changes.hpp"
#include "report/rig_drawing.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::Answer;
using assessment::FittingVerdict;

std::string answer_key(Answer answer) { return "answer." + std::string(assessment::name_of(answer)); }

/// "standing rigging fitted 2012 to 2019", "stays past the customary age: 1 of 7"
std::vector<std::string> rig_age(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const auto& stays = material.survey.stays;
    std::optional<int> first, last;
    std::size_t unknown = 0, past = 0;
    std::vector<std::string> sources;
    for (const survey::Stay& stay : stays) {
        const assessment::Age age = assessment::age_of(stay, material.survey.attendance.on, material.trade);
        if (age == assessment::Age::past || age == assessment::Age::far_past) ++past;
        if (!stay.fitted) {
            ++unknown;
            continue;
        }
        add_once(sources, words("rig.by." + survey::name_of(*stay.age_source)));
        first = std::min(first.value_or(stay.fitted->year), stay.fitted->year);
        last = std::max(last.value_or(stay.fitted->year), stay.fitted->year);
    }
    std::vector<std::string> parts;
    if (first)
        parts.push_back(words(first == last ? "cover.rig-age.one" : "cover.rig-age.span",
                              {{"first", std::to_string(*first)}, {"last", std::to_string(*last)}}));
    const auto count = [&](const char* key, std::size_t n) {
        if (n > 0) parts.push_back(words(key, {{"n", std::to_string(n)}, {"all", std::to_string(stays.size())}}));
    };
    if (!sources.empty()) parts.push_back(join({sources.begin(), sources.end()}, ", "));
    count("cover.rig-age.past", past);
    count("cover.rig-age.unknown", unknown);
    return parts;
}

CoverHead letterhead(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const survey::Survey& survey = material.survey;
    CoverHead head;
    const trade::Letterhead& own = material.trade.letterhead;
    head.firm = !own.firm.empty()              ? own.firm
                : survey.surveyor.firm.empty() ? survey.surveyor.name
                                               : survey.surveyor.firm;
    head.address = own.lines;
    head.accent = own.accent;
    if (material.logo.jpeg) {
        Picture logo;
        logo.jpeg = material.logo.jpeg;
        logo.width = material.logo.width;
        logo.height = material.logo.height;
        logo.alternative = words("cover.logo", {{"firm", head.firm}});
        head.logo = std::move(logo);
    }
    std::vector<std::string> by{survey.surveyor.name};
    if (!survey.surveyor.contact.empty()) by.push_back(survey.surveyor.contact);
    head.surveyor = join(by, " · ");
    head.document = words("cover.document", {{"number", survey.number}});
    head.issued = words("cover.issued", {{"date", words.date(material.issued_on)}, {"pages", "{pages}"}});
    if (const auto& old = material.replaced)
        head.issued +=
            " · " + words("cover.replaces-report",
                          {{"number", old->number}, {"date", old->issued}, {"hash", old->sha256.substr(0, 16)}});
    else if (!survey.replaces.empty()) head.issued += " · " + words("cover.replaces", {{"number", survey.replaces}});
    head.yacht = survey.yacht.name;
    std::vector<std::string> first{rig_plan(material), words.numbers(survey.yacht.loa.text)};
    if (survey.yacht.built) first.push_back(words("cover.built", {{"year", std::to_string(*survey.yacht.built)}}));
    std::vector<std::string> second{
        words("cover.mast", {{"material", material.trade.material_name(survey.yacht.mast)}})};
    if (!survey.yacht.hin.empty()) second.push_back(words("cover.hin", {{"hin", survey.yacht.hin}}));
    head.yacht_lines = {join(first, ", "), join(second, " · ")};
    return head;
}

/// "Nobody climbs this mast until items 1 and 2 are done." Of several masts each by its name.
std::string climbing_words(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    std::vector<std::string> sentences;
    for (const assessment::BarredMast& barred : material.assessment.barred) {
        std::vector<std::string> numbers;
        for (const int item : barred.items) numbers.push_back(std::to_string(item));
        const std::size_t most = material.assessment.barred.size() > 1 ? 3 : 8;  // the cover has no room for eighty
        const bool many = numbers.size() > 1;
        std::string items = words.listed(numbers);
        if (numbers.size() > most) {
            const std::string all = std::to_string(numbers.size());
            numbers.resize(most - 1);
            items = words("answer.items.many", {{"items", join(numbers, ", ")}, {"n", all}});
        }
        const std::string mast = barred.mast.empty() ? "this" : barred.mast;
        sentences.push_back(words("answer.bar." + mast + (many ? ".many" : ".one"), {{"items", items}}));
    }
    return join(sentences, " ");
}

/// "Renew: backstay; starboard lower shroud." by stays where the whole stay is finished, else by fittings.
std::string named(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const std::size_t most = material.assessment.barred.size() > 1 ? 2 : 4;  // of several masts there is more to say
    std::vector<std::string> names;
    for (const std::size_t i : material.assessment.findings) {
        const FittingVerdict& one = material.assessment.fittings[i];
        if (one.verdict != material.assessment.worst || one.verdict < Verdict::rectify) continue;
        add_once(names, one.verdict == Verdict::renew && assessment::renews_stay(one)
                            ? trade::stay_name(*one.stay, material.trade)
                            : one.name);
    }
    if (names.empty()) return {};
    const bool more = names.size() > most;  // stays, not the fittings that the counts are of
    if (more) names.resize(most);
    std::string text = join(names, "; ");
    if (more) text += " " + words("answer.and-others");
    return said(words, capitalised(verdict_word(material.assessment.worst, words)), text) + ".";
}

std::string detail(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const assessment::Assessment& assessment = material.assessment;
    std::vector<std::string> sentences;
    if (!material.completeness.complete())
        sentences.push_back(words.count("answer.detail.gaps", material.completeness.gaps.size()));
    if (material.survey.attendance.climbed == survey::Climbed::stopped)
        sentences.push_back(words("answer.detail.because", {{"because", material.survey.attendance.because}}));
    if (std::string names = named(material); !names.empty()) sentences.push_back(std::move(names));
    if (assessment.do_not_climb) sentences.push_back(climbing_words(material));
    if (assessment.findings.empty() && material.completeness.complete())
        sentences.push_back(words("answer.detail.none", {{"all", std::to_string(assessment.fittings.size())}}));
    return join(sentences, " ");
}

Counts counts(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const bool once = material.survey.attendance.climbed == survey::Climbed::stopped;
    Counts result;
    for (const Verdict verdict : survey::worst_first) {
        const std::string key =
            "meaning." + survey::name_of(verdict) + (verdict == Verdict::sound && once ? "-once" : "");
        result.counts.push_back({verdict, material.assessment.count(verdict), verdict_word(verdict, words),
                                 words(key, {{"date", words.date(material.assessment.watch_by)}})});
    }
    return result;
}

constexpr Points rig_width{310}, widest_rig{335}, narrowest_rig{270};

/// Every renew and rectify in a line of its own, the others by their number; before them what is missing.
Overview overview(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    Overview result;
    result.width = std::clamp(drawing::room_of(material.rig, 200).width, rig_width, widest_rig);
    result.widest = std::max(result.width, drawing::room_of(material.rig, 180).width);
    const bool one_mast = material.rig.masts.size() == 1;
    result.narrowest =
        std::min(result.width, std::max(narrowest_rig, drawing::room_of(material.rig, one_mast ? 200 : 330).width));
    result.draw = rig_with_findings(material);
    result.more = words("cover.more", {{"n", "{n}"}}) + " {page}";
    result.more_to_renew = words("cover.more-to-renew", {{"n", "{n}"}, {"renew", "{renew}"}}) + " {page}";
    result.more_anchor = "works";
    constexpr std::size_t few = 3;
    const auto& gaps = material.completeness.gaps;
    if (!gaps.empty()) result.lines.push_back({std::nullopt, words.count("cover.gaps", gaps.size()), "", "gaps"});
    for (std::size_t i = 0; i < std::min(few, gaps.size()); ++i)
        result.lines.push_back({std::nullopt, gap_name(material, gaps[i]), gaps[i].what, "gaps"});
    std::map<Verdict, int> others;
    for (const std::size_t i : material.assessment.findings) {
        const FittingVerdict& one = material.assessment.fittings[i];
        if (one.verdict < Verdict::rectify) {
            others.emplace(one.verdict, one.number);
            continue;
        }
        result.lines.push_back({VerdictMark{one.verdict, one.number}, capitalised(one.name),
                                finding_sentence(material, one), finding_anchor(one.number)});
    }
    for (const auto& [verdict, first] : others)
        result.closing.insert(result.closing.begin(),
                              {VerdictMark{verdict, 0},
                               words("cover.others", {{"n", std::to_string(material.assessment.count(verdict))},
                                                      {"verdict", verdict_word(verdict, words)}}),
                               "", finding_anchor(first)});
    return result;
}

Illustration bead_row(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    std::vector<Verdict> verdicts;
    std::size_t deck = 0;
    for (const FittingVerdict& one : material.assessment.fittings) {
        if (one.absent) continue;
        verdicts.push_back(one.verdict);
        if (one.fitting->at_deck()) ++deck;
    }
    std::vector<std::string> told;
    for (const Verdict verdict : survey::worst_first)
        told.push_back(std::to_string(material.assessment.count(verdict)) + " " + verdict_word(verdict, words));
    const drawing::BeadWords bead_words{words("rig.deck"), words("rig.masthead"), words("beads.first"),
                                        words("beads.aloft", {{"n", std::to_string(verdicts.size())}}),
                                        words("beads.alternative", {{"counts", join(told, ", ")}})};
    return {drawing::beads(verdicts, deck, measures::text_width, bead_words), ""};
}

std::string inspected_times(const survey::Survey& survey) {
    std::optional<TimeOfDay> first;
    std::optional<TimeOfDay> last;
    for (const survey::Fitting& fitting : survey.fittings)
        for (const survey::Seen& seen : fitting.seen) {
            first = first ? std::min(*first, seen.at) : seen.at;
            last = last ? std::max(*last, seen.at) : seen.at;
        }
    return first ? ", " + first->hh_mm() + "–" + last->hh_mm() : std::string();
}

Facts parties(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const survey::Survey& survey = material.survey;
    std::size_t pairs = 0;
    for (const FittingVerdict& one : material.assessment.fittings)
        for (const survey::Seen& seen : one.fitting->seen) pairs += seen.has_pair() ? 1U : 0U;
    const auto& attendance = survey.attendance;
    std::vector<std::string> weather;
    if (attendance.climbed == survey::Climbed::no) weather.push_back(words("cover.unstepped"));
    if (attendance.afloat) weather.push_back(words(*attendance.afloat ? "cover.afloat" : "cover.ashore"));
    if (!attendance.weather.empty()) weather.push_back(attendance.weather);
    std::vector<std::string> by{survey.surveyor.name};
    if (!survey.surveyor.qualification.empty()) by.push_back(survey.surveyor.qualification);
    Facts facts;
    facts.ruled = false;
    facts.by_need = true;
    facts.facts = {{words("cover.for"),
                    {survey.client.name, words("client." + survey::name_of(survey.client.role)),
                     words("cover.purpose", {{"purpose", words("purpose." + survey::name_of(survey.purpose))}})}},
                   {words("cover.by"), by},
                   {words("cover.attended"),
                    {words.date(attendance.on) + inspected_times(survey), attendance.place, join(weather, "; ")}},
                   {words("cover.inspected"),
                    {told_seen(material), words.count("cover.photos", material.evidence.photos.size()) + ", " +
                                              words.count("cover.pairs", pairs)}}};
    if (auto age = rig_age(material); !age.empty()) facts.facts.push_back({words("cover.rig-age"), std::move(age)});
    facts.columns = facts.facts.size();
    return facts;
}

}  // namespace

AnswerPlate answer_plate(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const assessment::Assessment& assessment = material.assessment;
    AnswerPlate plate;
    plate.detail = detail(material);
    if (assessment.do_not_climb) plate.climb = words("answer.do-not-climb");
    else if (assessment.answer == Answer::stopped_at_deck) plate.climb = words("answer.no-word");
    if (!material.completeness.complete()) plate.incomplete = words("stamp.incomplete");
    if (assessment.answer == Answer::stopped_at_deck) {
        plate.stopped = true;
        plate.badge = words("answer.badge-stopped");
        plate.strip = words("answer.strip");
        plate.statement = words(answer_key(assessment.answer));
    } else if (!material.completeness.complete() && assessment.answer != Answer::not_to_be_sailed) {
        plate.badge = words("answer.badge-incomplete");
        plate.statement = words("answer.incomplete");
    } else {
        plate.verdict = assessment.worst;
        plate.badge = verdict_word(assessment.worst, words);
        plate.statement = words(answer_key(assessment.answer));
    }
    return plate;
}

void cover(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, letterhead(material));
    add(blocks, answer_plate(material));
    add(blocks, counts(material));
    if (std::string since = changes_in_short(material); !since.empty())
        add(blocks, Paragraph{std::move(since), Tone::body});
    own_rules_first(material, blocks);
    add(blocks, bead_row(material));
    add(blocks, overview(material));
    add(blocks, parties(material));
    const bool strand = std::any_of(material.survey.stays.begin(), material.survey.stays.end(),
                                    [](const auto& stay) { return stay.make == "1x19"; });
    Caution caution{
        words("caution.title"),
        {words("caution.visual", {{"limits", words(strand ? "caution.limits.strand" : "caution.limits.plain")}})}};
    const auto first = assessment::cautions_for("cover", material.assessment, material.survey, material.trade);
    caution.paragraphs.insert(caution.paragraphs.begin(), first.begin(), first.end());
    caution.small = true;
    caution.beside = drawing::rose(material.data_digest.hex(), 38_pt, words("cover.rose"));
    add(blocks, caution);
    add(blocks, Fingerprint{words("cover.digest"), "", material.data_digest.hex()});
}

void contents(const Material&, Blocks& blocks) { add(blocks, Contents{}); }

}  // namespace rigdeed::report
