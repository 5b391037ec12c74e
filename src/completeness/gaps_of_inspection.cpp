#include <algorithm>

#include "base/text.hpp"
#include "completeness/gaps.hpp"
#include "trade/judge.hpp"

namespace rigdeed::completeness {

using survey::Climbed;
using survey::Fitting;
using survey::Seen;
using survey::Way;

Note about(const Fitting& fitting, std::string_view code, std::string what, std::string hint) {
    return {std::string(code), fitting.id, fitting.line, std::move(what), std::move(hint)};
}

namespace {

void not_seen_in(Way pass, std::string_view code, const Inspection& in, Notes& notes) {
    const std::string way = survey::name_of(pass);
    const std::string what = in.trade.wording("gap." + std::string(code));
    for (const Fitting& fitting : in.survey.fittings)
        if (must_be_seen(fitting, pass, in.survey) && fitting.in(pass) == nullptr)
            notes.push_back(about(fitting, code, what,
                                  "add <seen pass=\"" + way + "\" …>, or <not-seen pass=\"" + way +
                                      "\" reason=\"…\"/> if it could not be inspected then; without pass: never"));
}

bool says_why_climbed(const Fitting& fitting, const std::string& sign) {
    return std::any_of(fitting.climbed_despite.begin(), fitting.climbed_despite.end(),
                       [&](const survey::ClimbedDespite& one) { return one.sign == sign; });
}

/// The last moment of the deck level's first look; nothing if no deck fitting was seen.
std::optional<TimeOfDay> deck_finished(const survey::Survey& survey) {
    std::optional<TimeOfDay> last;
    for (const Fitting& fitting : survey.fittings)
        if (const Seen* up = fitting.at_deck() ? fitting.in(Way::up) : nullptr)
            last = last ? std::max(*last, up->at) : up->at;
    return last;
}

}  // namespace

void not_seen_up(const Inspection& in, Notes& notes) { not_seen_in(Way::up, "not-seen-up", in, notes); }
void not_seen_down(const Inspection& in, Notes& notes) { not_seen_in(Way::down, "not-seen-down", in, notes); }

/// An inspection that went another way than up and down again, deck first, says so in because="…" of <attendance>.
void down_before_up(const Inspection& in, Notes& notes) {
    if (!in.survey.attendance.because.empty()) return;
    for (const Fitting& fitting : in.survey.fittings) {
        const Seen* up = fitting.in(Way::up);
        const Seen* down = fitting.in(Way::down);
        if (up != nullptr && down != nullptr && down->at <= up->at)
            notes.push_back(
                about(fitting, "down-before-up",
                      in.trade.wording("gap.down-before-up", {{"down", down->at.hh_mm()}, {"up", up->at.hh_mm()}}),
                      "is a time mistyped? if it was so, say how the inspection went: because=\"…\" in <attendance>"));
    }
}

void aloft_before_deck(const Inspection& in, Notes& notes) {
    if (in.survey.attendance.climbed != Climbed::yes || !in.survey.attendance.because.empty()) return;
    const auto finished = deck_finished(in.survey);
    if (!finished) return;
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            if (!fitting.at_deck() && seen.at < *finished)
                notes.push_back(
                    about(fitting, "aloft-before-deck",
                          in.trade.wording("gap.aloft-before-deck",
                                           {{"time", seen.at.hh_mm()}, {"finished", finished->hh_mm()}}),
                          "the deck level comes first, for the climber's sake; is a time mistyped? if it was "
                          "so, say why: because=\"…\" in <attendance>"));
}

void climbed_despite_bar(const Inspection& in, Notes& notes) {
    if (in.survey.attendance.climbed != Climbed::yes) return;
    for (const Fitting& barred : in.survey.fittings)
        for (const trade::JudgedSign& sign : trade::judge(barred, in.trade)) {
            // One at the mast that was seen from aloft, on the way up, is told as that.
            if (!sign.bars || sign.seen->pass != Way::up || !barred.at_deck()) continue;
            if (says_why_climbed(barred, sign.sign->code)) continue;
            const auto climbed_on =
                std::find_if(in.survey.fittings.begin(), in.survey.fittings.end(), [&](const Fitting& other) {
                    return !other.at_deck() && std::any_of(other.seen.begin(), other.seen.end(), [&](const Seen& seen) {
                        return seen.pass == Way::up && seen.at > sign.seen->at;
                    });
                });
            if (climbed_on == in.survey.fittings.end()) continue;
            notes.push_back(about(
                barred, "climbed-despite-bar",
                in.trade.wording("gap.climbed-despite-bar", {{"sign", sign.rule->name}, {"other", climbed_on->id}}),
                "if somebody climbed all the same, say why and what held him: <climbed despite=\"" + sign.sign->code +
                    "\" because=\"…\"/> in the fitting"));
        }
}

/// Said of a sign that nobody saw there.
void climbed_despite_nothing(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings)
        for (const survey::ClimbedDespite& climbed : fitting.climbed_despite) {
            const bool seen = std::any_of(fitting.seen.begin(), fitting.seen.end(), [&](const Seen& one) {
                return std::any_of(one.signs.begin(), one.signs.end(),
                                   [&](const survey::Sign& sign) { return sign.code == climbed.sign; });
            });
            if (seen) continue;
            Note note = about(fitting, "climbed-despite-nothing",
                              in.trade.wording("gap.climbed-despite-nothing", {{"sign", climbed.sign}}),
                              "despite=\"…\" names a sign of this fitting, by its code");
            note.line = climbed.line;
            notes.push_back(std::move(note));
        }
}

void seen_aloft_though_stopped(const Inspection& in, Notes& notes) {
    if (in.survey.attendance.climbed != Climbed::stopped) return;
    for (const Fitting& fitting : in.survey.fittings)
        if (!fitting.at_deck() && !fitting.seen.empty())
            notes.push_back(
                about(fitting, "aloft-though-stopped", in.trade.wording("gap.aloft-though-stopped"),
                      "climbed=\"yes\" if somebody climbed; what was seen from the deck through a glass alone is "
                      "<not-seen reason=\"seen from the deck only: …\"/>"));
}

void milder_without_reason(const Inspection& in, Notes& notes) {
    const trade::Wording& words = in.trade.wording;
    for (const Fitting& fitting : in.survey.fittings) {
        if (!fitting.verdict || !fitting.verdict->because.empty()) continue;
        const auto told = fitting.not_seen ? survey::Verdict::unseen : trade::worst(trade::judge(fitting, in.trade));
        if (fitting.verdict->is >= told) continue;
        Note note = about(
            fitting, "milder-without-reason",
            words("gap.milder-without-reason", {{"verdict", words("verdict." + survey::name_of(fitting.verdict->is))},
                                                {"told", words("verdict." + survey::name_of(told))}}),
            "add because=\"…\": it is printed in the report");
        note.line = fitting.verdict->line;
        notes.push_back(std::move(note));
    }
}

void sound_though_unseen(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings)
        if (fitting.not_seen && fitting.verdict && fitting.verdict->is == survey::Verdict::sound)
            notes.push_back(about(fitting, "sound-though-unseen", in.trade.wording("gap.sound-though-unseen"),
                                  "leave the verdict out: what nobody saw is \"unseen\""));
}

void signs_contradict(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            for (const trade::Contradiction& row : in.trade.contradictions) {
                const auto says = [&](const std::string& code) {
                    return std::any_of(seen.signs.begin(), seen.signs.end(),
                                       [&](const survey::Sign& sign) { return sign.code == code; });
                };
                if (row.kind != fitting.kind || !says(row.sign)) continue;
                if (!row.other.empty() && !says(row.other)) continue;
                if (!row.measured.empty() && fitting.measure(row.measured) == nullptr) continue;
                notes.push_back(
                    about(fitting, "signs-contradict",
                          in.trade.wording(
                              "gap.signs-contradict",
                              {{"sign", row.sign}, {"other", row.other + row.measured}, {"because", row.because}}),
                          "both cannot be: which of them was seen? the other belongs in the words of a sign"));
            }
}

}  // namespace rigdeed::completeness
