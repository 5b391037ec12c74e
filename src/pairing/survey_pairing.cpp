#include "pairing/survey_pairing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/text.hpp"
#include "pairing/clocks.hpp"
#include "pairing/places.hpp"

namespace rigdeed::pairing {
namespace {

using evidence::Looked;

double seconds(const LocalTime& when) { return static_cast<double>(seconds_since_epoch(when)); }

std::optional<double> taken(const Looked& looked, const survey::Survey& survey) {
    const auto when = looked.photo.true_time(survey.photos);
    if (!when) return std::nullopt;
    double fraction = 0;
    double digit = 0.1;
    for (const char c : looked.photo.facts.subsecond) {
        if (c < '0' || c > '9') break;
        fraction += (c - '0') * digit;
        digit /= 10;
    }
    return seconds(*when) + fraction;
}

// How wide what a photo shows is, from the distance that some cameras write down; nothing is known without.
double closeness(const evidence::Photo& photo) {
    const auto scale = photo.scale();
    if (!scale || scale->value <= 0) return 0;
    constexpr double between = 350;  // mm: fittings fill less, a place with its neighbours more
    const double width = scale->value * std::max(photo.width, photo.height);
    return std::clamp(3 * std::log(between / width), -4.0, 4.0);
}

class Pairer {
 public:
    Pairer(const survey::Survey& survey, const std::vector<Looked>& looked,
           const std::set<std::pair<std::string, Way>>& open)
        : survey_(survey), open_(open), places_(places_of(survey)) {
        for (const Looked& one : looked) {
            if (one.photo.usable()) photos_.push_back(&one);
            else paired_.unreadable.push_back(one.photo.file);
        }
        // In the order they were taken; one without a time stays behind the file that comes before it by name.
        std::sort(photos_.begin(), photos_.end(),
                  [](const Looked* a, const Looked* b) { return a->photo.file < b->photo.file; });
        std::map<const Looked*, double> moment;
        double last = 0;
        for (const Looked* one : photos_) {
            if (const auto at = taken(*one, survey)) last = *at;
            moment[one] = last;
        }
        std::stable_sort(photos_.begin(), photos_.end(),
                         [&](const Looked* a, const Looked* b) { return moment[a] < moment[b]; });
        for (std::size_t i = 0; i < photos_.size(); ++i) number_.emplace(photos_[i]->photo.name, i);
    }

    Paired run() {
        fill_fittings();
        fill_photos();
        const std::vector<Proposal> proposals = pair_photos(facts_);
        tell(proposals);
        ask(proposals);
        return std::move(paired_);
    }

 private:
    void fill_fittings() {
        facts_.fittings.resize(survey_.fittings.size());
        for (std::size_t p = 0; p < places_.size(); ++p)
            for (const std::size_t fitting : places_[p].fittings) facts_.fittings[fitting].place = p;
        for (std::size_t i = 0; i < survey_.fittings.size(); ++i) {
            FittingFacts& facts = facts_.fittings[i];
            for (const Way pass : {Way::up, Way::down})
                (pass == Way::up ? facts.up : facts.down).none =
                    survey_.fittings[i].not_seen || survey_.fittings[i].not_seen_on(pass) != nullptr;
            for (const survey::Seen& seen : survey_.fittings[i].seen) {
                Look& look = seen.pass == Way::up ? facts.up : facts.down;
                if (!open_.contains({survey_.fittings[i].id, seen.pass}))
                    look.at = seconds({survey_.attendance.on, seen.at});
                look.named_far = !seen.far.empty();
                look.named_close = !seen.close.empty();
                if (const auto far = number_.find(seen.far); far != number_.end()) look.far = far->second;
                if (const auto close = number_.find(seen.close); close != number_.end()) look.close = close->second;
                for (const auto& one : {look.far, look.close})
                    if (one) said_.insert(*one);
                look.sign = !seen.signs.empty();
                facts.has_sign |= look.sign;
            }
        }
    }

    void fill_photos() {
        std::map<std::string, int> cameras;
        for (const Looked* one : photos_) {
            PhotoFacts& facts = facts_.photos.emplace_back();
            facts.time = taken(*one, survey_);
            facts.camera = cameras.emplace(one->photo.facts.camera, static_cast<int>(cameras.size())).first->second;
            facts.closeness = closeness(one->photo);
            facts.sharpness = one->sharpness;
            facts.code = code_in(*one);
        }
        for (const survey::OtherPhoto& other : survey_.photos.others)
            if (const auto one = number_.find(other.name); one != number_.end()) {
                facts_.photos[one->second].other = true;
                said_.insert(one->second);
            }
    }

    // Of several places none; of both passes at one place the place alone.
    std::optional<CodeSeen> code_in(const Looked& looked) {
        std::optional<CodeSeen> seen;
        for (const std::string& text : looked.codes) {
            const auto code = read_code(text);
            if (!code) continue;
            const auto place =
                std::find_if(places_.begin(), places_.end(), [&](const Place& one) { return one.id == code->place; });
            if (place == places_.end() || code->survey != code_of(survey_, *place, code->pass).survey) {
                ++paired_.foreign_codes;
                continue;
            }
            const auto number = static_cast<std::size_t>(place - places_.begin());
            if (seen && seen->place != number) return std::nullopt;
            if (seen && seen->pass != code->pass) seen->pass.reset();
            else seen = CodeSeen{number, code->pass};
        }
        return seen;
    }

    void tell(const std::vector<Proposal>& proposals) {
        for (std::size_t i = 0; i < proposals.size(); ++i) {
            const Proposal& one = proposals[i];
            Told told;
            told.photo = photos_[i]->photo.name;
            told.pass = one.pass;
            told.view = one.view;
            told.named = said_.contains(i);
            told.sure = told.named || one.sure;
            if (const auto& code = facts_.photos[i].code; code && !told.named) {
                told.of_place = places_[code->place].id;
                told.sure = true;
                told.view = View::other;
            }
            if (facts_.photos[i].time) {
                const LocalTime when =
                    local_from_seconds(static_cast<std::int64_t>(std::floor(*facts_.photos[i].time)));
                if (when.date == survey_.attendance.on) told.at = when.time.seconds;
            }
            if (told.view != View::other)
                for (const std::size_t fitting : one.fittings) told.fittings.push_back(survey_.fittings[fitting].id);
            if (one.next_best && !told.sure) told.next_best = survey_.fittings[*one.next_best].id;
            told.reason = reason(told, one);
            told.why = phrase(told);
            paired_.photos.push_back(std::move(told));
        }
    }

    static Why reason(const Told& told, const Proposal& one) {
        if (told.named) return Why::survey;
        if (!told.of_place.empty()) return Why::code;
        if (told.sure) return Why::order;
        if (told.view == View::other) return Why::nothing_in_turn;
        if (one.certainty < 0.5) return Why::several;
        return told.next_best.empty() ? Why::uncertain : Why::or_else;
    }

    static std::string phrase(const Told& told) {
        switch (told.reason) {
            case Why::survey: return "the survey says so";
            case Why::code: return "the code in it";
            case Why::order: return "order and time";
            case Why::nothing_in_turn: return "it fits nothing in turn";
            case Why::several: return "several fittings are as likely";
            case Why::uncertain: return "not certain enough";
            case Why::or_else: break;
        }
        return "or else " + told.next_best;
    }

    // The doubtful ones that most others hang on: those with the longest run of doubt behind them.
    void ask(const std::vector<Proposal>& proposals) {
        std::vector<std::pair<std::size_t, std::size_t>> runs;  // length, where it begins
        for (std::size_t i = 0; i < proposals.size();) {
            std::size_t end = i;
            while (end < proposals.size() && !paired_.photos[end].sure) ++end;
            const auto first = std::find_if(paired_.photos.begin() + static_cast<std::ptrdiff_t>(i),
                                            paired_.photos.begin() + static_cast<std::ptrdiff_t>(end),
                                            [](const Told& told) { return told.view == View::close; });
            if (first != paired_.photos.begin() + static_cast<std::ptrdiff_t>(end))
                runs.emplace_back(end - i, static_cast<std::size_t>(first - paired_.photos.begin()));
            i = std::max(end, i + 1);
        }
        std::stable_sort(runs.begin(), runs.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        for (std::size_t i = 0; i < std::min<std::size_t>(2, runs.size()); ++i)
            paired_.questions.push_back(runs[i].second);
    }

    const survey::Survey& survey_;
    const std::set<std::pair<std::string, Way>>& open_;
    std::vector<Place> places_;
    std::vector<const Looked*> photos_;
    std::map<std::string, std::size_t> number_;
    std::set<std::size_t> said_;
    Facts facts_;
    Paired paired_;
};

}  // namespace

Paired pair_survey(const survey::Survey& survey, const std::vector<Looked>& looked,
                   const std::set<std::pair<std::string, Way>>& open) {
    const std::vector<survey::CameraClock> clocks = find_clocks(survey, looked, open);
    survey::Survey by_clocks = survey;
    by_clocks.photos.cameras.insert(by_clocks.photos.cameras.end(), clocks.begin(), clocks.end());
    Paired paired = Pairer(by_clocks, looked, open).run();
    paired.clocks = clocks;
    return paired;
}

}  // namespace rigdeed::pairing
