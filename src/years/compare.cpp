#include "years/compare.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::years {
namespace {

using assessment::FittingVerdict;
using survey::Fitting;
using survey::Side;
using survey::Survey;

/// Where a fitting is, whatever it is called in its file.
struct Place {
    std::string kind, role, mast, station;
    Side side = Side::centre;

    auto operator<=>(const Place&) const = default;
    [[nodiscard]] Place mirrored() const {
        Place other = *this;
        if (side != Side::centre) other.side = side == Side::port ? Side::starboard : Side::port;
        return other;
    }
};

Place place_of(const Survey& survey, const Fitting& fitting) {
    const survey::Stay* stay = survey.stay(fitting.stay);
    if (stay == nullptr) return {fitting.kind, {}, fitting.mast, fitting.station, fitting.side.value_or(Side::centre)};
    return {fitting.kind, stay->role, stay->mast, fitting.station, stay->side};
}

/// Which fitting of the older survey each of the newer one is.
struct Match {
    std::optional<std::size_t> before;
    bool guessed = false;
};

class Matcher {
 public:
    Matcher(const Survey& before, const Survey& now) : before_(before), now_(now), matches_(now.fittings.size()) {}

    std::vector<Match> run(std::vector<Exchanged>& exchanged) {
        for (std::size_t i = 0; i < now_.fittings.size(); ++i) by_id(i, exchanged);
        for (std::size_t i = 0; i < now_.fittings.size(); ++i)
            if (!matches_[i].before) by_place(i);
        return std::move(matches_);
    }

 private:
    void by_id(std::size_t i, std::vector<Exchanged>& exchanged) {
        const Fitting& fitting = now_.fittings[i];
        for (std::size_t j = 0; j < before_.fittings.size(); ++j) {
            const Fitting& old = before_.fittings[j];
            if (old.id != fitting.id) continue;
            const Place then = place_of(before_, old), here = place_of(now_, fitting);
            if (then == here) {
                take(i, j, false);
            } else if (then == here.mirrored()) {
                exchanged.push_back({fitting.id, then.side, here.side});
            } else {
                exchanged.push_back({fitting.id, {}, {}});
            }
            return;
        }
    }

    /// The next one of that kind at that place which is nobody's yet.
    void by_place(std::size_t i) {
        const Place here = place_of(now_, now_.fittings[i]);
        for (std::size_t j = 0; j < before_.fittings.size(); ++j)
            if (!taken_.contains(j) && place_of(before_, before_.fittings[j]) == here) return take(i, j, true);
    }

    void take(std::size_t i, std::size_t j, bool guessed) {
        matches_[i] = {j, guessed};
        taken_.insert(j);
    }

    const Survey& before_;
    const Survey& now_;
    std::vector<Match> matches_;
    std::set<std::size_t> taken_;
};

/// Number and unit of what was written: "12.5 mm".
std::optional<std::pair<double, std::string>> number_of(const std::string& text) {
    double value = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (code != std::errc{}) return std::nullopt;
    return std::pair(value, squeezed(std::string_view(end, static_cast<std::size_t>(text.data() + text.size() - end))));
}

double years_between(const Date& from, const Date& to) {
    constexpr double seconds_a_year = 365.2425 * 24 * 3600;
    return static_cast<double>(seconds_since_epoch({to, {0}}) - seconds_since_epoch({from, {0}})) / seconds_a_year;
}

/// Least squares through all figures.
double slope(const std::vector<Figure>& figures) {
    double mean_x = 0, mean_y = 0;
    for (const Figure& one : figures) mean_x += years_between(figures.front().on, one.on), mean_y += one.value;
    mean_x /= static_cast<double>(figures.size());
    mean_y /= static_cast<double>(figures.size());
    double xy = 0, xx = 0;
    for (const Figure& one : figures) {
        const double x = years_between(figures.front().on, one.on) - mean_x;
        xy += x * (one.value - mean_y);
        xx += x * x;
    }
    return xy / xx;
}

class Comparer {
 public:
    Comparer(const std::vector<Visit>& visits, const trade::Trade& trade) : visits_(visits), trade_(trade) {
        for (std::size_t i = 1; i < visits_.size(); ++i) {
            const Survey &before = *visits_[i - 1].survey, &now = *visits_[i].survey;
            if (before.attendance.on >= now.attendance.on)
                throw Error("the surveys are not in the order of their days: " + before.number + " of " +
                                before.attendance.on.iso() + ", " + now.number + " of " + now.attendance.on.iso(),
                            now.file, "name the oldest first");
            std::vector<Exchanged> exchanged;
            matches_.push_back(Matcher(before, now).run(exchanged));
            if (i + 1 == visits_.size()) comparison_.exchanged = std::move(exchanged);
        }
    }

    Comparison run() {
        const Visit &before = visits_[visits_.size() - 2], &now = visits_.back();
        std::set<std::size_t> found;
        for (std::size_t i = 0; i < now.survey->fittings.size(); ++i) {
            const Match& match = matches_.back()[i];
            if (match.before) found.insert(*match.before);
            comparison_.fittings.push_back(change_of(i, match));
        }
        for (std::size_t j = 0; j < before.survey->fittings.size(); ++j) {
            if (found.contains(j)) continue;
            FittingChange& gone = comparison_.fittings.emplace_back();
            gone.name = before.assessment->fittings[j].name;
            gone.id_before = before.survey->fittings[j].id;
            gone.change = Change::gone;
            gone.verdict_before = before.assessment->fittings[j].verdict;
            for (const std::string& code : codes(before.survey->fittings[j]))
                gone.gone.push_back(named(before, j, code));
        }
        return std::move(comparison_);
    }

 private:
    static std::set<std::string> codes(const Fitting& fitting) {
        std::set<std::string> all;
        for (const survey::Seen& seen : fitting.seen)
            for (const survey::Sign& sign : seen.signs) all.insert(sign.code);
        return all;
    }

    SignNamed named(const Visit& visit, std::size_t fitting, const std::string& code) const {
        const trade::Kind* kind = trade_.kind(visit.survey->fittings[fitting].kind);
        const trade::SignRule* sign = kind != nullptr ? trade_.sign(*kind, code) : nullptr;
        return {code, sign != nullptr ? sign->name : code};
    }

    FittingChange change_of(std::size_t i, const Match& match) const {
        const Visit &before = visits_[visits_.size() - 2], &now = visits_.back();
        const Fitting& fitting = now.survey->fittings[i];
        FittingChange change;
        change.name = now.assessment->fittings[i].name;
        change.id = fitting.id;
        change.verdict = now.assessment->fittings[i].verdict;
        change.guessed = match.guessed;
        const std::set<std::string> here = codes(fitting);
        if (!match.before) {
            change.change = Change::fresh;
            for (const std::string& code : here) change.come.push_back(named(now, i, code));
            return change;
        }
        const Fitting& old = before.survey->fittings[*match.before];
        change.id_before = old.id;
        change.verdict_before = before.assessment->fittings[*match.before].verdict;
        const std::set<std::string> there = codes(old);
        for (const std::string& code : here)
            (there.contains(code) ? change.still : change.come).push_back(named(now, i, code));
        const bool was_renewed = renewed(fitting, old);
        for (const std::string& code : there) {
            if (here.contains(code)) continue;
            const bool said = was_renewed || std::any_of(fitting.gone.begin(), fitting.gone.end(),
                                                         [&](const survey::Gone& one) { return one.sign == code; });
            (said ? change.gone : change.not_said).push_back(named(before, *match.before, code));
        }
        change.change = was_renewed                                ? Change::renewed
                        : *change.verdict > *change.verdict_before ? Change::worse
                        : *change.verdict < *change.verdict_before ? Change::better
                                                                   : Change::same;
        change.courses = courses(i);
        return change;
    }

    /// Of what is renewed with a stay: its strand and terminals, not what it is fastened to.
    bool renewed(const Fitting& fitting, const Fitting& old) const {
        const Visit &before = visits_[visits_.size() - 2], &now = visits_.back();
        const survey::Stay *stay = now.survey->stay(fitting.stay), *old_stay = before.survey->stay(old.stay);
        const trade::Kind* kind = trade_.kind(fitting.kind);
        if (stay == nullptr || old_stay == nullptr || kind == nullptr || !stay->fitted) return false;
        const bool goes_with_stay =
            kind->is_a(trade::KindIs::line) || kind->is_a(trade::KindIs::terminal) || kind->is_a(trade::KindIs::aged);
        const bool moved = !old_stay->fitted || old_stay->fitted->iso() != stay->fitted->iso();
        return goes_with_stay && moved && stay->fitted->earliest() > before.survey->attendance.on;
    }

    std::vector<Course> courses(std::size_t last) const {
        std::vector<Course> all;
        for (const survey::Measured& measured : visits_.back().survey->fittings[last].measured) {
            Course course;
            course.what = measured.what;
            std::optional<std::size_t> at = last;
            for (std::size_t v = visits_.size(); v-- > 0 && at;) {
                const Survey& survey = *visits_[v].survey;
                const survey::Measured* one = survey.fittings[*at].measure(measured.what);
                const auto number = one != nullptr ? number_of(one->value) : std::nullopt;
                if (number && (course.figures.empty() || number->second == course.unit)) {
                    course.unit = number->second;
                    course.figures.insert(course.figures.begin(), {survey.attendance.on, one->value, number->first});
                }
                at = v > 0 ? matches_[v - 1][*at].before : std::nullopt;
            }
            if (course.figures.size() < 2) continue;
            course.difference = course.figures.back().value - course.figures[course.figures.size() - 2].value;
            if (course.figures.size() > 2) course.per_year = slope(course.figures);
            const trade::MeasureName* rule = trade_.tables.measure(measured.what);
            course.name = rule != nullptr ? rule->name : measured.what;
            all.push_back(std::move(course));
        }
        return all;
    }

    const std::vector<Visit>& visits_;
    const trade::Trade& trade_;
    std::vector<std::vector<Match>> matches_;  ///< of each survey but the first, to the one before it
    Comparison comparison_;
};

std::string plain(std::string_view hin) {
    std::string letters;
    for (const char c : lower(hin))
        if (c != ' ' && c != '-' && c != '.') letters += c;
    return letters;
}

}  // namespace

std::size_t Comparison::count(Change change) const {
    return static_cast<std::size_t>(std::count_if(fittings.begin(), fittings.end(),
                                                  [&](const FittingChange& one) { return one.change == change; }));
}

bool of_one_yacht(const Survey& one, const Survey& other) {
    if (!one.yacht.hin.empty() && !other.yacht.hin.empty()) return plain(one.yacht.hin) == plain(other.yacht.hin);
    return plain(one.yacht.name) == plain(other.yacht.name);
}

Comparison compare(const std::vector<Visit>& visits, const trade::Trade& trade) {
    if (visits.size() < 2) throw Error("one survey alone cannot be compared", {}, {}, ExitCode::bug);
    return Comparer(visits, trade).run();
}

std::string_view name_of(Change change) {
    switch (change) {
        case Change::fresh: return "new";
        case Change::gone: return "gone";
        case Change::renewed: return "renewed";
        case Change::better: return "better";
        case Change::worse: return "worse";
        case Change::same: return "same";
    }
    return "";
}

}  // namespace rigdeed::years
