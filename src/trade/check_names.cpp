#include <algorithm>

#include "base/text.hpp"
#include "trade/judge.hpp"
#include "trade/trade.hpp"

namespace rigdeed::trade {
namespace {

template <class Rows>
std::vector<std::string> ids_of(const Rows& rows) {
    std::vector<std::string> ids;
    for (const auto& row : rows) ids.push_back(row.id);
    return ids;
}

/// What an alias stands for, by how a message calls what was given.
std::string_view asked_for(std::string_view what) {
    if (what == "sign code") return "sign";
    if (what == "fitting") return "kind";
    return what == "alloy" || what == "metal" || what == "mast" ? "material" : what;
}

class NameCheck {
 public:
    NameCheck(const survey::Survey& survey, const Trade& trade)
        : survey_(survey), trade_(trade), materials_(ids_of(trade.materials)) {}

    Problems run() {
        if (survey_.yacht.rig != any_rig)
            known(survey_.yacht.line, "<yacht>", "rig", survey_.yacht.rig, with_any(ids_of(trade_.plans)));
        check_choices();
        for (const survey::Absent& absent : survey_.absent) check(absent);
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
    static std::vector<std::string> with_any(std::vector<std::string> ids) {
        ids.emplace_back(any_rig);
        return ids;
    }

    void check_choices() {
        const Plan* plan = trade_.plan(survey_.yacht.rig);
        if (!survey_.choices || (plan == nullptr && survey_.yacht.rig != any_rig)) return;
        const auto say = [&](const std::string& what, std::string hint) {
            problems_.push_back({{survey_.file, survey_.rig_line}, "<rig>: choices: " + what, std::move(hint)});
        };
        for (const auto& [id, value] : *survey_.choices) {
            const Parameter* parameter = plan != nullptr ? plan->parameter(id) : nullptr;
            if (parameter == nullptr) {
                std::vector<std::string> ids;
                if (plan != nullptr)
                    for (const Parameter& one : plan->parameters) ids.push_back(one.id);
                say("rig " + in_quotes(survey_.yacht.rig) + " has no " + in_quotes(id),
                    ids.empty() ? "it has nothing to choose" : "it has: " + join(ids, ", "));
            } else if (std::find(parameter->values.begin(), parameter->values.end(), value) ==
                       parameter->values.end()) {
                say(id + "=" + shown(value) + " is not possible", "write one of: " + join(parameter->values, ", "));
            }
        }
    }

    /// What the trade has a sign "missing" for is a finding where it is not there, never a limit.
    void check(const survey::Absent& absent) {
        if (!absent.role.empty()) known(absent.line, "<absent>", "role", absent.role, ids_of(trade_.roles));
        if (absent.kind.empty()) return;
        known(absent.line, "<absent>", "kind", absent.kind, ids_of(trade_.kinds));
        const Kind* kind = trade_.kind(absent.kind);
        if (kind != nullptr && !absent.stay.empty() && trade_.sign(*kind, missing) != nullptr)
            problems_.push_back({{survey_.file, absent.line},
                                 "<absent>: a stay that has no " + kind->name + " is a finding",
                                 "write in the stay: <without fitting=\"" + kind->id + "\" because=\"…\"/>"});
    }

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
            for (const survey::Sign& sign : seen.signs) {
                known(sign.line, label + ", kind " + in_quotes(kind->id), "sign code", sign.code, codes);
                check_wires(sign, fitting, *kind, label);
            }
        if (fitting.verdict && fitting.verdict->is < Verdict::rectify) check_floor(fitting, *kind, label);
    }

    /// Wires are numbered on 1x19 strand, and are named for what wires show.
    void check_wires(const survey::Sign& sign, const survey::Fitting& fitting, const Kind& kind,
                     const std::string& label) {
        if (sign.wires.empty()) return;
        const SignRule* rule = trade_.sign(kind, sign.code);
        const survey::Stay* stay = survey_.stay(fitting.stay);
        const bool of_wires = rule == nullptr || rule->is == SignIs::broken_wire || rule->is == SignIs::dull_wire;
        if (!of_wires)
            problems_.push_back({{survey_.file, sign.line},
                                 label + ": wires on the sign " + in_quotes(sign.code) + ", which is none of wires",
                                 "leave wires away, and say in the sign's words where it is"});
        else if (stay == nullptr || stay->make != "1x19")
            problems_.push_back({{survey_.file, sign.line},
                                 label + ": wires on a fitting that is not of 1x19 strand",
                                 "write count=\"…\" in place of wires; only 1x19 has outer wires 1 to 12"});
    }

    /// Nobody's reason makes milder than "rectify" what is finished or bars climbing.
    void check_floor(const survey::Fitting& fitting, const Kind& kind, const std::string& label) {
        for (const survey::Seen& seen : fitting.seen)
            for (const survey::Sign& sign : seen.signs) {
                const SignRule* rule = trade_.sign(kind, sign.code);
                if (rule == nullptr || (rule->verdict != Verdict::renew && !bars_at(*rule, fitting))) continue;
                problems_.push_back({{survey_.file, fitting.verdict->line},
                                     label + ": verdict " + in_quotes(survey::name_of(fitting.verdict->is)) +
                                         " on a fitting with the sign " + in_quotes(sign.code) + ", which " +
                                         (rule->verdict == Verdict::renew ? "finishes it" : "bars climbing"),
                                     "write is=\"rectify\" with the reason, or leave the verdict to the sign"});
                return;
            }
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
        std::vector<std::string> called;
        for (const std::string& meant : trade_.meant(asked_for(what), id))
            if (std::find(ids.begin(), ids.end(), meant) != ids.end()) called.push_back(in_quotes(meant));
        problems_.push_back({{survey_.file, line},
                             label + ": " + what + " " + in_quotes(id) + " is not known",
                             called.empty() ? "the nearest: " + join(nearest(id, ids), ", ")
                                            : "it is called " + join(called, " or ") + " here"});
    }

    const survey::Survey& survey_;
    const Trade& trade_;
    std::vector<std::string> materials_;
    Problems problems_;
};

}  // namespace

Problems check_names(const survey::Survey& survey, const Trade& trade) { return NameCheck(survey, trade).run(); }

}  // namespace rigdeed::trade
