#include <algorithm>

#include "base/text.hpp"
#include "trade/trade.hpp"

namespace rigdeed::trade {
namespace {

template <class Rows>
std::vector<std::string> ids_of(const Rows& rows) {
    std::vector<std::string> ids;
    for (const auto& row : rows) ids.push_back(row.id);
    return ids;
}

class NameCheck {
 public:
    NameCheck(const survey::Survey& survey, const Trade& trade)
        : survey_(survey), trade_(trade), materials_(ids_of(trade.materials)) {}

    Problems run() {
        known(survey_.yacht.line, "<yacht>", "rig", survey_.yacht.rig, ids_of(trade_.plans));
        known(survey_.yacht.line, "<yacht>", "mast", survey_.yacht.mast, materials_);
        const auto roles = ids_of(trade_.roles);
        const auto makes = ids_of(trade_.makes);
        for (const survey::Stay& stay : survey_.stays) {
            const std::string label = "stay " + in_quotes(stay.id);
            known(stay.line, label, "role", stay.role, roles);
            known(stay.line, label, "make", stay.make, makes);
            known(stay.line, label, "alloy", stay.alloy, materials_);
            for (const survey::StayEnd& end : stay.ends)
                if (!end.terminal.empty()) known(end.line, label, "terminal", end.terminal, ids_of(trade_.kinds));
            for (const survey::Without& without : stay.without) check(without, label);
        }
        for (const survey::Fitting& fitting : survey_.fittings) check(fitting);
        return std::move(problems_);
    }

 private:
    /// Only what the trade has a sign "missing" for may be missing: the finding needs its words.
    void check(const survey::Without& without, const std::string& label) {
        known(without.line, label, "fitting", without.fitting, ids_of(trade_.kinds));
        const Kind* kind = trade_.kind(without.fitting);
        if (kind != nullptr && trade_.sign(*kind, missing) == nullptr)
            problems_.push_back({{survey_.file, without.line},
                                 label + ": a stay cannot do without its " + kind->name,
                                 "list the fitting; <without> is for: " + join(may_be_missing(), ", ")});
    }

    std::vector<std::string> may_be_missing() const {
        std::vector<std::string> ids;
        for (const Kind& kind : trade_.kinds)
            if (trade_.sign(kind, missing) != nullptr) ids.push_back(kind.id);
        return ids;
    }

    void check(const survey::Fitting& fitting) {
        const std::string label = "fitting " + in_quotes(fitting.id);
        if (!fitting.metal.empty()) known(fitting.line, label, "metal", fitting.metal, materials_);
        known(fitting.line, label, "kind", fitting.kind, ids_of(trade_.kinds));
        for (const survey::Measured& measured : fitting.measured) check(measured, fitting, label);
        const Kind* kind = trade_.kind(fitting.kind);
        if (kind == nullptr) return;
        std::vector<std::string> codes;
        for (const auto* rules : {&kind->signs, &trade_.any_signs})
            for (const SignRule& rule : *rules) codes.push_back(rule.code);
        for (const survey::Seen& seen : fitting.seen)
            for (const survey::Sign& sign : seen.signs)
                known(sign.line, label + ", kind " + in_quotes(kind->id), "sign code", sign.code, codes);
    }

    /// Known by name, of the right kind of unit, within what it can be, and on a fitting that has it.
    void check(const survey::Measured& measured, const survey::Fitting& fitting, const std::string& label) {
        const MeasureName* row = trade_.tables.measure(measured.what);
        if (row == nullptr)
            return known(measured.line, label, "measure", measured.what, ids_of(trade_.tables.measures));
        const auto say = [&](const std::string& what, std::string hint) {
            problems_.push_back(
                {{survey_.file, measured.line}, label + ": " + measured.what + " " + what, std::move(hint)});
        };
        const auto reading = read_measure(measured.value, row->measure);
        if (!reading.value) return say(reading.error.what, reading.error.hint);
        const std::string value = in_quotes(measured.value);
        if (reading.value->value < row->least || reading.value->value > row->most)
            return say(value + " is outside of what it can be", "look at the unit and the decimal point");
        const bool fits =
            row->kinds.empty() || std::find(row->kinds.begin(), row->kinds.end(), fitting.kind) != row->kinds.end();
        if (!fits && trade_.kind(fitting.kind) != nullptr)
            say(value + " is not measured on a " + trade_.kind(fitting.kind)->name,
                "it belongs on: " + join(row->kinds, ", "));
    }

    void known(int line, const std::string& label, const char* what, const std::string& id,
               const std::vector<std::string>& ids) {
        for (const std::string& one : ids)
            if (one == id) return;
        problems_.push_back({{survey_.file, line},
                             label + ": " + what + " " + in_quotes(id) + " is not known",
                             "the nearest: " + join(nearest(id, ids), ", ")});
    }

    const survey::Survey& survey_;
    const Trade& trade_;
    std::vector<std::string> materials_;
    Problems problems_;
};

}  // namespace

Problems check_names(const survey::Survey& survey, const Trade& trade) { return NameCheck(survey, trade).run(); }

}  // namespace rigdeed::trade
