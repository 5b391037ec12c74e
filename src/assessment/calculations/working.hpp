#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "assessment/calculation.hpp"

/// How a calculation is written down, for the files of this folder.
namespace rigdeed::assessment {

inline constexpr double newtons = 1000;  ///< in a kilonewton
inline constexpr double gravity = 9.81;  ///< m/s², as the methods' worked figures have it

/// Its metal is one that the calculations know the strength of.
[[nodiscard]] bool is_calculated(const survey::Fitting& fitting, const trade::Trade& trade);

/// A load and where it is known from.
struct SourcedLoad {
    std::optional<Kilonewtons> load;
    std::string source;
};

/// Builds one calculation; its words are those of "calc.<id>.…" in the wording.
class Working {
 public:
    Working(const Case& one, std::string_view id);
    Working& about(const survey::Stay& stay);
    Working& about(const survey::Fitting& fitting);
    Working& about(std::string subject, std::vector<std::string> ids);

    /// What is known; a value that is absent or not finite is not known. `name` is its id, and a key of the wording.
    template <class Q>
    void input(std::string symbol, std::string_view name, std::optional<Q> value, int decimals, std::string source) {
        const auto plain = value ? std::optional(value->value) : std::nullopt;
        calculation_.inputs.push_back(
            figure(std::move(symbol), name, plain, unit_of(Q{}), decimals, std::move(source)));
    }
    template <class Q>
    void result(std::string symbol, std::string_view name, std::optional<Q> value, int decimals) {
        const auto plain = value ? std::optional(value->value) : std::nullopt;
        calculation_.results.push_back(figure(std::move(symbol), name, plain, unit_of(Q{}), decimals, {}));
    }
    /// Whole months.
    void result_months(std::string symbol, std::string_view name, std::optional<int> months);
    void input_text(std::string symbol, std::string_view name, std::string text, std::string source);
    void result_text(std::string symbol, std::string_view name, std::string text);

    /// A load that is not known, where nothing was calculated at all.
    void result_or_none(std::string symbol, std::string_view name);
    /// The strand of a stay's chain ("strand"), and its links by their own names ("link"): how strong each is, and
    /// against the strand.
    void strand(const std::string& name, const SourcedLoad& load);
    void link(const std::string& name, const SourcedLoad& load, const std::string& fitting);
    void link_ratio(const std::string& link, Ratio ratio);

    /// A measure of the fitting as an input; if it was not measured, it is missing.
    template <class Q>
    std::optional<Q> measured(std::string symbol, std::string_view what, const survey::Fitting* fitting,
                              const std::string& otherwise_of, int decimals) {
        const auto value = measure(what, fitting);
        const auto quantity = value ? std::optional(Q{*value}) : std::nullopt;
        add_measured(std::move(symbol), what, fitting, value, unit_of(Q{}), decimals);
        if (!value) missing(what, measure_name(what), fitting != nullptr ? fitting->id : otherwise_of);
        return quantity;
    }
    /// The same, without a word if it was not measured.
    template <class Q>
    std::optional<Q> measured_if(std::string symbol, std::string_view what, const survey::Fitting* fitting,
                                 int decimals) {
        const auto value = measure(what, fitting);
        if (value) add_measured(std::move(symbol), what, fitting, value, unit_of(Q{}), decimals);
        return value ? std::optional(Q{*value}) : std::nullopt;
    }

    /// A number of the trade, with its source.
    template <class Q>
    Q constant(std::string symbol, std::string_view id, int decimals) {
        const trade::Constant& row = case_.trade.tables.constant(id);
        input<Q>(std::move(symbol), id, Q{row.value}, decimals, row.source);
        return Q{row.value};
    }

    void missing(std::string_view input, std::string name, std::string of);
    void remark(std::string_view key, const std::vector<Filling>& fillings = {});
    /// What is to be kept in mind, not of this one in particular.
    void note(std::string_view key, const std::vector<Filling>& fillings = {});
    /// A quantity out of sense: measure again.
    void doubt(std::string_view key, const std::vector<Filling>& fillings = {});
    /// A number as the language writes it.
    [[nodiscard]] std::string number(double value, int decimals) const {
        return case_.trade.wording.number(value, decimals);
    }
    /// Words of this calculation: "calc.<id>.<key>".
    [[nodiscard]] std::string words(std::string_view key, const std::vector<Filling>& fillings = {}) const;
    void formula(std::string_view key) { calculation_.formula = words(key); }
    [[nodiscard]] std::string measure_name(std::string_view what) const;

    [[nodiscard]] Calculation done() { return std::move(calculation_); }

 private:
    [[nodiscard]] Figure figure(std::string symbol, std::string_view name, std::optional<double> value, Unit unit,
                                int decimals, std::string source) const;
    [[nodiscard]] std::optional<double> measure(std::string_view what, const survey::Fitting* fitting) const;
    void add_link(std::string id, const std::string& name, const SourcedLoad& load, const std::string& fitting);
    void add_measured(std::string symbol, std::string_view what, const survey::Fitting* fitting,
                      std::optional<double> value, Unit unit, int decimals);

    const Case& case_;
    Calculation calculation_;
};

/// A measure in its base unit; nothing if it was not taken.
template <class Q>
[[nodiscard]] std::optional<Q> measure_of(const survey::Fitting& fitting, std::string_view what,
                                          const trade::Trade& trade) {
    const survey::Measured* measured = fitting.measure(what);
    const trade::MeasureName* row = trade.tables.measure(what);
    if (measured == nullptr || row == nullptr) return std::nullopt;
    const auto reading = read_measure(measured->value, row->measure);
    return reading.value ? std::optional(Q{reading.value->value}) : std::nullopt;
}

/// Breaking load of a stay: of its certificate, else of a printed table, else by the formula, else not known.
[[nodiscard]] SourcedLoad strength_of(const survey::Stay& stay, const trade::Trade& trade);
/// What is asked for where it is not known, once a make, alloy and size: "breaking load of 1×19 strand, …".
[[nodiscard]] std::string strand_load_name(const survey::Stay& stay, const trade::Trade& trade);
/// The same of a fitting, once a kind, make and size: "breaking load by its maker: toggle for 1×19 strand, 8 mm".
[[nodiscard]] std::string maker_load_name(const survey::Fitting& fitting, const survey::Survey& survey,
                                          const trade::Trade& trade);
/// Load of all shrouds of one side; not known without righting moment and beam.
[[nodiscard]] SourcedLoad load_of_side(const survey::Survey& survey, const trade::Trade& trade);
/// Load of a stay by its share; not known where the shares do not hold: several spreaders, another mast than the main.
[[nodiscard]] std::optional<Kilonewtons> load_of(const survey::Stay& stay, const survey::Survey& survey,
                                                 const trade::Trade& trade);
/// The same of a mast with several pairs of spreaders whose lengths are measured, by the statics of its panels.
[[nodiscard]] std::optional<Kilonewtons> load_by_panels(const survey::Stay& stay, const survey::Survey& survey,
                                                        const trade::Trade& trade);
/// Righting moment at 30°: given, of a heel test, or out of displacement and lever.
[[nodiscard]] std::optional<NewtonMetres> moment_of(const survey::Yacht& yacht, const trade::Trade& trade);
/// From the mast to the chainplates: half of their distance, else half the beam.
[[nodiscard]] std::optional<Millimetres> half_base(const survey::Yacht& yacht);
[[nodiscard]] std::optional<Kilonewtons> mast_compression(const survey::Survey& survey, const trade::Trade& trade);
/// The first modulus that the tables have for a stay's make and alloy; null for none.
[[nodiscard]] const trade::Modulus* first_modulus(const survey::Stay& stay, const trade::Tables& tables);
/// Tension at rest: by the gauge, by the gauge's reading and its table, else by the stretch.
[[nodiscard]] std::optional<Kilonewtons> tension_of(const survey::Stay& stay, const survey::Survey& survey,
                                                    const trade::Trade& trade);
/// What a link of a stay's chain holds, and where that is known from; nothing for a fitting that is no link.
[[nodiscard]] SourcedLoad link_load(const survey::Fitting& fitting, const survey::Survey& survey,
                                    const trade::Trade& trade);
/// What the mast's wall bears under the bolts of a tang or a through-bolt, and what plate and bolts hold, whichever is
/// less; nothing where it was not measured.
[[nodiscard]] std::optional<Kilonewtons> wall_load(const survey::Fitting& fitting, const survey::Survey& survey,
                                                   const trade::Trade& trade);
[[nodiscard]] std::optional<Kilonewtons> bolts_load(const survey::Fitting& fitting, const survey::Survey& survey,
                                                    const trade::Trade& trade);
/// The split pin that goes with a clevis pin.
[[nodiscard]] const trade::SplitPinSize* split_pin_for(Millimetres clevis, const trade::Tables& tables);
/// Pin of the same stay at the same end; the fitting itself if it is one.
[[nodiscard]] const survey::Fitting* pin_beside(const survey::Fitting& fitting, const survey::Survey& survey,
                                                const trade::Trade& trade);
/// Angle between the legs of a split pin as measured, or out of length and gap.
[[nodiscard]] std::optional<Degrees> legs_of(const survey::Fitting& fitting, const trade::Trade& trade);
/// Metal of the mast against that of a fitting, by their anodic indices.
[[nodiscard]] std::optional<Volts> against_mast(const survey::Fitting& fitting, const survey::Survey& survey,
                                                const trade::Trade& trade);

/// One function a subject, each in the file of its name.
void strand_strengths(const Case& one, Calculations& all);
void pins(const Case& one, Calculations& all);
void bolts(const Case& one, Calculations& all);
void chains_of_strength(const Case& one, Calculations& all);
void rig_loads(const Case& one, Calculations& all);
void spreader_tips(const Case& one, Calculations& all);
void static_tensions(const Case& one, Calculations& all);
void galvanic_pairs(const Case& one, Calculations& all);
void photo_scales(const Case& one, Calculations& all);
void ages(const Case& one, Calculations& all);
void lamp_loads(const Case& one, Calculations& all);
void coverage(const Case& one, Calculations& all);
void heel_tests(const Case& one, Calculations& all);
void panel_statics(const Case& one, Calculations& all);
void panel_inertias(const Case& one, Calculations& all);
void warmth(const Case& one, Calculations& all);
void rope_sizes(const Case& one, Calculations& all);
void quantities_for_renewal(const Case& one, Calculations& all);

}  // namespace rigdeed::assessment
