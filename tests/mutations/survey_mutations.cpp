/// Complete surveys of all plans, each with one thing changed in it at a time: `check` notices, or a row of the list
/// below says why it cannot, or why it does not matter.
///
/// usage: survey_mutations [HOW MANY]
/// Prints how many were noticed, and as what, by the way they were changed; then "N passed, N failed".

#include <cstdio>
#include <cstdlib>
#include <map>
#include <set>

#include "completeness/completeness.hpp"
#include "mutations/mutate.hpp"
#include "mutations/whole.hpp"
#include "survey/read_survey.hpp"

using namespace rigdeed;
using mutations::How;
using mutations::Mutation;

namespace {

constexpr unsigned seed = 20261003;

/// What need not be noticed.
struct Excuse {
    const char* because;
    bool (*holds)(const Mutation&);
    std::size_t used = 0;
};

bool is_one_of(const std::string& word, std::initializer_list<const char*> words) {
    for (const char* one : words)
        if (word == one) return true;
    return false;
}

bool taken(const Mutation& m, std::initializer_list<const char*> attributes) {
    return m.how == How::take_attribute && is_one_of(m.attribute, attributes);
}

std::vector<Excuse> excuses() {
    return {
        {"nothing was changed: both have the same name",
         [](const Mutation& m) {
             return (m.how == How::exchange_photos || m.how == How::exchange_ids) && m.before == m.after;
         }},
        {"who, where and in what weather: the report says that it was not stated",
         [](const Mutation& m) {
             return taken(m, {"firm", "qualification", "contact", "independence", "afloat", "weather"});
         }},
        {"a figure of the yacht or a stay that nobody must know: what is calculated from it is not, and says so",
         [](const Mutation& m) {
             return taken(m, {"hin", "built", "beam", "freeboard", "displacement", "gz30", "length", "breaking-load",
                              "sailed", "metal"});
         }},
        {"more about a sign than its words: they stand in the report",
         [](const Mutation& m) {
             return taken(m, {"where", "count", "mark"});
         }},
        {"an observation that nobody wrote down: nothing else tells of it",
         [](const Mutation& m) {
             return m.how == How::take_element && is_one_of(m.element, {"sign", "measured", "verdict"});
         }},
        {"a reason for a verdict as hard as its signs, or harder: it needs none",
         [](const Mutation& m) { return m.element == "verdict" && taken(m, {"because"}); }},
        {"how many, how long: the surveyor's word, the verdict does not hang on it",
         [](const Mutation& m) {
             return m.how == How::ten_times && m.element == "sign" && is_one_of(m.attribute, {"count", "length"});
         }},
        {"a year in which it may have been fitted: the surveyor's word, with its source in the report",
         [](const Mutation& m) { return m.how == How::shift_date && m.attribute == "fitted"; }},
        {"names of two fittings within the file: the report calls them by stay, side, height and kind, which they keep",
         [](const Mutation& m) { return m.how == How::exchange_ids && m.element == "fitting"; }},
        {"the far photo of another fitting at the same station: both show it",
         [](const Mutation& m) {
             return m.how == How::exchange_photos && m.before.starts_with("F-") && m.after.starts_with("F-");
         }},
    };
}

/// What `check` says of a survey.
struct Told {
    std::string error;
    std::set<std::string> gaps, remarks;
};

Told told_of(const std::string& text, const evidence::Evidence& folder, const trade::Trade& trade) {
    Told told;
    auto reading = survey::read_survey(text, "survey.xml");
    Problems problems = reading.survey ? trade::check_names(*reading.survey, trade) : reading.problems;
    if (!problems.empty()) {
        told.error = problems.front().what;
        return told;
    }
    const evidence::Evidence photos = mutations::photos_for(*reading.survey, folder);
    const auto found = completeness::check_completeness({*reading.survey, photos, trade, Date{2026, 10, 8}});
    for (const completeness::Note& gap : found.gaps) told.gaps.insert(gap.code + gap.fitting + gap.what);
    for (const completeness::Note& remark : found.remarks)
        told.remarks.insert(remark.code + remark.fitting + remark.what);
    return told;
}

/// The standard rig of a plan, and the one with the last value of every choice.
std::vector<trade::Settings> rigs_of(const trade::Plan& plan) {
    std::vector<trade::Settings> rigs{{}};
    trade::Settings last;
    for (const trade::Parameter& parameter : plan.parameters) last[parameter.id] = parameter.values.back();
    if (!last.empty()) rigs.push_back(last);
    return rigs;
}

struct Counts {
    std::size_t all = 0, errors = 0, gaps = 0, remarks = 0, excused = 0;
};

}  // namespace

int main(int argc, char** argv) {
    const std::size_t wanted = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 6000;
    const trade::Trade trade = trade::load_trade();
    std::vector<Excuse> list = excuses();
    std::mt19937 random(seed);
    std::map<How, Counts> by_way;
    std::size_t passed = 0, failed = 0;
    const auto fail = [&](const std::string& what) {
        if (++failed <= 40) std::printf("FAILED: %s\n", what.c_str());
    };
    std::vector<mutations::Whole> wholes;
    std::vector<std::string> names;
    for (const trade::Plan& plan : trade.plans)
        for (const trade::Settings& settings : rigs_of(plan)) {
            wholes.push_back(mutations::whole_survey(plan, settings, trade));
            names.push_back(plan.id);
        }
    for (std::size_t i = 0; i < wholes.size(); ++i) {
        const auto read = xml::read(wholes[i].text, "survey.xml");
        const Told before = told_of(wholes[i].text, wholes[i].photos, trade);
        if (!before.error.empty() || !before.gaps.empty() || !before.remarks.empty()) {
            fail(names[i] + ": not complete before anything is changed: " +
                 (before.gaps.empty() ? (before.remarks.empty() ? before.error : *before.remarks.begin())
                                      : *before.gaps.begin()));
            continue;
        }
        ++passed;
        const mutations::Mutator mutator(*read.root);
        for (std::size_t n = 0; n < wanted / wholes.size() + 1; ++n) {
            const Mutation mutation = mutator.next(random);
            const Told after = told_of(mutations::written(mutation.root), wholes[i].photos, trade);
            Counts& counts = by_way[mutation.how];
            ++counts.all;
            if (!after.error.empty()) ++counts.errors;
            else if (!after.gaps.empty()) ++counts.gaps;
            else if (!after.remarks.empty()) ++counts.remarks;
            else {
                Excuse* excuse = nullptr;
                for (Excuse& one : list)
                    if (excuse == nullptr && one.holds(mutation)) excuse = &one;
                if (excuse == nullptr) {
                    fail(names[i] + ": not noticed: " + mutation.text());
                    continue;
                }
                ++excuse->used;
                ++counts.excused;
            }
            ++passed;
        }
    }
    Counts sum;
    for (const auto& [how, counts] : by_way) {
        std::printf("  %s: %zu; error %zu, gap %zu, remark %zu, excused %zu\n",
                    mutations::how_names[static_cast<int>(how)], counts.all, counts.errors, counts.gaps, counts.remarks,
                    counts.excused);
        sum.all += counts.all;
        sum.errors += counts.errors;
        sum.gaps += counts.gaps;
        sum.remarks += counts.remarks;
        sum.excused += counts.excused;
    }
    for (const Excuse& excuse : list) {
        std::printf("  %zu times: %s\n", excuse.used, excuse.because);
        if (excuse.used == 0 && wanted >= 5000) fail(std::string("nothing is excused by: ") + excuse.because);
    }
    std::printf("  %zu mutations of %zu surveys; noticed as error or gap: %.1f %%, as a remark: %.1f %%\n", sum.all,
                wholes.size(), 100.0 * static_cast<double>(sum.errors + sum.gaps) / static_cast<double>(sum.all),
                100.0 * static_cast<double>(sum.remarks) / static_cast<double>(sum.all));
    std::printf("%zu passed, %zu failed\n", passed, failed);
    return failed == 0 ? 0 : 1;
}
