#include "assessment/calculations/galvanic.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

/// Two materials that touch, with or without something between them, and where.
struct Pair {
    std::string one;
    std::string other;
    bool mast = false;  ///< the other is the mast's wall
    std::optional<survey::Isolator> isolator;
    std::vector<std::string> places;
};

class Pairs {
 public:
    explicit Pairs(const Case& one) : case_(one) {}

    std::vector<Pair> find() {
        for (const survey::Fitting& fitting : case_.survey.fittings) {
            within(fitting);
            for (const trade::Touch& touch : case_.trade.tables.touches)
                if (touch.kind == fitting.kind) neighbours(fitting, touch);
        }
        return std::move(pairs_);
    }

 private:
    /// Parts of one fitting, each with each.
    void within(const survey::Fitting& fitting) {
        const trade::Kind* kind = case_.trade.kind(fitting.kind);
        if (kind == nullptr) return;
        for (std::size_t i = 0; i < kind->parts.size(); ++i)
            for (std::size_t k = i + 1; k < kind->parts.size(); ++k) {
                const trade::Part *one = &kind->parts[i], *other = &kind->parts[k];
                if (is_mast(*one)) std::swap(one, other);
                add({metal_of(*one, fitting),
                     metal_of(*other, fitting),
                     is_mast(*other),
                     fitting.isolator,
                     {fitting.id}});
            }
    }

    static bool is_mast(const trade::Part& part) { return part.metals.front() == "mast"; }

    /// Of the fitting, its stay or the mast, or the usual one; empty if the usual ones differ by their index.
    std::string metal_of(const trade::Part& part, const survey::Fitting& fitting) const {
        const std::string& first = part.metals.front();
        const survey::Stay* stay = case_.survey.stay(fitting.stay);
        if (first == "fitting") return fitting.metal;
        if (first == "mast") return case_.survey.yacht.mast;
        if (first == "stay") return stay != nullptr ? stay->alloy : std::string();
        const trade::Metal* metal = case_.trade.tables.metal(first);
        for (const std::string& other : part.metals) {
            const trade::Metal* row = case_.trade.tables.metal(other);
            if (metal == nullptr || row == nullptr || row->index != metal->index) return {};
        }
        return first;
    }

    void neighbours(const survey::Fitting& fitting, const trade::Touch& touch) {
        if (touch.other == "mast") {
            return add({fitting.metal, case_.survey.yacht.mast, true, fitting.isolator, {fitting.id}});
        }
        for (const survey::Fitting& other : case_.survey.fittings)
            if (other.kind == touch.other && !other.stay.empty() && other.stay == fitting.stay &&
                other.at_deck() == fitting.at_deck())
                add({fitting.metal, other.metal, false, std::nullopt, {fitting.id, other.id}});
    }

    void add(Pair pair) {
        if (pair.one.empty() || pair.other.empty() || pair.one == pair.other) return;
        const trade::Metal* one = case_.trade.tables.metal(pair.one);
        const trade::Metal* other = case_.trade.tables.metal(pair.other);
        if (one == nullptr || other == nullptr) return;  // wood, fibre, plastic
        if (!pair.mast && pair.other < pair.one) std::swap(pair.one, pair.other);
        for (Pair& known : pairs_)
            if (known.one == pair.one && known.other == pair.other && known.mast == pair.mast &&
                known.isolator == pair.isolator) {
                for (const std::string& place : pair.places)
                    if (std::find(known.places.begin(), known.places.end(), place) == known.places.end())
                        known.places.push_back(place);
                return;
            }
        pairs_.push_back(std::move(pair));
    }

    const Case& case_;
    std::vector<Pair> pairs_;
};

void limits(Working& working, Volts off, const Case& one) {
    std::vector<std::string> passed;
    std::vector<std::string> failed;
    for (const char* id : {"index-salt", "index-unheated", "index-controlled"}) {
        const trade::Constant& limit = one.trade.tables.constant(id);
        (off.value <= limit.value + 1e-9 ? passed : failed).push_back(working.number(limit.value, 2) + " V");
    }
    const std::string none = one.trade.wording("calc.galvanic.none");
    working.result_text(
        "", "limits",
        working.words("limits", {{"passed", passed.empty() ? none : one.trade.wording.listed(passed)},
                                 {"failed", failed.empty() ? none : one.trade.wording.listed(failed)}}));
}

void potentials(Working& working, const trade::Metal& one, const trade::Metal& other, const std::string& names) {
    if (!one.noble || !one.base || !other.noble || !other.base)
        return working.note("no-potential", {{"metals", names}});
    const Volts left = middle({*one.noble, *one.base});
    const Volts right = middle({*other.noble, *other.base});
    working.input<Volts>("E1", "potential-one", left, 2, one.source);
    working.input<Volts>("E2", "potential-other", right, 2, other.source);
    working.result<Volts>("|E1 − E2|", "potential-difference", difference(left, right), 2);
}

void one_pair(const Pair& pair, const Case& one, Calculations& all) {
    const trade::Metal& left = *one.trade.tables.metal(pair.one);
    const trade::Metal& right = *one.trade.tables.metal(pair.other);
    const std::string names = one.trade.material_name(pair.one) + ", " + one.trade.material_name(pair.other);
    Working working(one, "galvanic");
    working.about(names + (pair.mast ? " " + one.trade.wording("calc.galvanic.of-mast") : ""), pair.places);
    working.input<Volts>("V1", "index-one", left.index, 2, left.source);
    working.input<Volts>("V2", "index-other", right.index, 2, right.source);
    if (left.index && right.index) {
        const Volts off = difference(*left.index, *right.index);
        working.result<Volts>("|V1 − V2|", "index-difference", off, 2);
        limits(working, off, one);
        if (left.elsewhere || right.elsewhere) {
            const Volts again =
                difference(left.elsewhere.value_or(*left.index), right.elsewhere.value_or(*right.index));
            working.result<Volts>("|V1 − V2|", "index-elsewhere", again, 2);
            working.note("sources-disagree");
        }
    }
    potentials(working, left, right, names);
    const std::string isolator = pair.isolator ? survey::name_of(*pair.isolator) : std::string("not-told");
    if (pair.mast) working.result_text("", "isolator-state", working.words("isolator-" + isolator));
    if (pair.mast && !pair.isolator)
        for (const std::string& place : pair.places)
            working.missing("isolator", one.trade.wording("calc.name.isolator"), place);
    // The mast is large beside any fitting: a noble mast eats it, a base one hardly notices all at once.
    const bool mast_is_noble = pair.mast && left.index && right.index && *right.index < *left.index;
    if (mast_is_noble) working.remark("large-cathode");
    else if (pair.mast) working.note("small-cathode");
    all.push_back(working.done());
}

}  // namespace

Volts difference(Volts one, Volts other) { return {std::abs((one - other).value)}; }

Volts middle(const PotentialBand& band) { return (band.noble + band.base) / 2; }

std::optional<Volts> against_mast(const survey::Fitting& fitting, const survey::Survey& survey,
                                  const trade::Trade& trade) {
    const trade::Metal* own = trade.tables.metal(fitting.metal);
    const trade::Metal* mast = trade.tables.metal(survey.yacht.mast);
    if (own == nullptr || mast == nullptr || !own->index || !mast->index) return std::nullopt;
    return difference(*own->index, *mast->index);
}

void galvanic_pairs(const Case& one, Calculations& all) {
    for (const Pair& pair : Pairs(one).find()) one_pair(pair, one, all);
}

}  // namespace rigdeed::assessment
