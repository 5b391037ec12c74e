#include <algorithm>

#include "base/fields.hpp"
#include "base/text.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

struct SidesRow {
    bool value;
    std::string_view name;
};
const std::vector<SidesRow> sides_names{{true, "both"}, {false, "centre"}};

std::optional<double> read_share(Fields& fields, std::string_view name) {
    const auto share = fields.measure(name, Measure::percent, {0, 100}, false);
    return share ? std::optional(share->value / 100) : std::nullopt;
}

class PlanReader {
 public:
    PlanReader(const xml::Element& root, const std::string& file, Problems& problems)
        : root_(root), file_(file), problems_(problems) {}

    Plan read() {
        Fields fields(root_, "<plan>", file_, problems_);
        fields.text("xmlns");
        plan_.id = fields.token("id");
        plan_.name = fields.text("name");
        plan_.says = fields.text("says");
        plan_.mast_material = fields.token("mast");
        if (const auto loa = fields.quantity<Millimetres>("loa", Measure::length, {2000, 100000}, true))
            plan_.loa = *loa;
        fields.finish({"parameter", "mast", "stay", "fitting"});
        for (const xml::Element& child : root_.children) {
            if (child.name == "parameter") read_parameter(child);
            if (child.name == "mast") read_mast(child);
            if (child.name == "stay") read_stay(child);
            if (child.name == "fitting") read_fitting(child);
        }
        return std::move(plan_);
    }

 private:
    Fields fields_of(const xml::Element& element) {
        return {element, element.name + " " + in_quotes(element.get("id").value_or("?")), file_, problems_};
    }

    void read_parameter(const xml::Element& element) {
        Fields fields = fields_of(element);
        Parameter parameter{fields.token("id"), fields.text("says"), split(fields.text("values"), ' '),
                            fields.text("standard")};
        parameter.asked = fields.optional_token("asked") != "no";
        fields.finish();
        if (std::find(parameter.values.begin(), parameter.values.end(), parameter.standard) == parameter.values.end())
            fields.say(element.line, "standard is not among its values",
                       "write one of: " + join(parameter.values, ", "));
        plan_.parameters.push_back(std::move(parameter));
    }

    void read_mast(const xml::Element& element) {
        Fields fields = fields_of(element);
        PlanMast mast;
        mast.id = fields.choice_text("id", {"fore", "main", "mizzen"});
        if (const auto height = fields.quantity<Millimetres>("height", Measure::length, {2000, 100000}, true))
            mast.height = *height;
        fields.finish();
        plan_.masts.push_back(std::move(mast));
    }

    void read_stay(const xml::Element& element) {
        Fields fields = fields_of(element);
        PlanStay stay;
        stay.id = fields.token("id");
        stay.role = fields.token("role");
        stay.both_sides = fields.choice("sides", sides_names, false).value_or(false);
        stay.mast = mast_of(fields, element);
        stay.make = fields.token("make");
        stay.alloy = fields.token("alloy");
        if (const auto d = fields.quantity<Millimetres>("diameter", Measure::length, {1, 100}, true))
            stay.diameter = *d;
        stay.top = read_share(fields, "top");
        stay.each = parameter_of(fields, element);
        stay.from = fields.whole("from", 1, 6).value_or(1);
        stay.when = condition_of(fields, element);
        fields.finish();
        if (!stay.top && stay.each.empty())
            fields.say(element.line, "top is missing",
                       "write top=\"100 %\", or each=\"spreaders\" for one at each spreader");
        plan_.stays.push_back(std::move(stay));
    }

    void read_fitting(const xml::Element& element) {
        Fields fields = fields_of(element);
        PlanFitting fitting;
        fitting.id = fields.token("id");
        fitting.kind = fields.token("kind");
        fitting.stay = fields.optional_token("stay");
        fitting.both_sides = fields.choice("sides", sides_names, false).value_or(false);
        if (!fitting.stay.empty() && !has_centre_stay(fitting.stay))
            fields.say(element.line, "the plan has no stay " + in_quotes(fitting.stay) + " on the centreline",
                       "list the stays first, and name one without sides=\"both\" and each=\"…\"");
        fitting.mast = mast_of(fields, element);
        fitting.station = fields.choice_text("station", {"deck", "mast", "spreader", "masthead"});
        fitting.height = read_share(fields, "height");
        fitting.each = parameter_of(fields, element);
        fitting.when = condition_of(fields, element);
        fields.finish();
        if (fitting.station.empty())
            fields.say(element.line, "station is missing", "write deck, mast, spreader or masthead");
        plan_.fittings.push_back(std::move(fitting));
    }

    bool has_centre_stay(const std::string& id) const {
        return std::any_of(plan_.stays.begin(), plan_.stays.end(), [&](const PlanStay& one) {
            return one.id == id && !one.both_sides && one.each.empty() && one.when.parameter.empty();
        });
    }

    std::string mast_of(Fields& fields, const xml::Element& element) {
        const std::string mast = fields.choice_text("mast", {"fore", "main", "mizzen"});
        if (std::none_of(plan_.masts.begin(), plan_.masts.end(), [&](const PlanMast& one) { return one.id == mast; }))
            fields.say(element.line, "the plan has no such mast",
                       "list the masts first: <mast id=\"main\" height=\"14 m\"/>");
        return mast;
    }

    std::string parameter_of(Fields& fields, const xml::Element& element) {
        const std::string id = fields.optional_token("each");
        if (!id.empty()) (void)find(fields, element, id);
        return id;
    }

    Condition condition_of(Fields& fields, const xml::Element& element) {
        const std::string text = fields.optional_text("when");
        if (text.empty()) return {};
        const auto sign = text.find('=');
        const Condition condition{text.substr(0, sign), sign == std::string::npos ? "" : text.substr(sign + 1)};
        const Parameter* parameter = find(fields, element, condition.parameter);
        if (parameter != nullptr &&
            std::find(parameter->values.begin(), parameter->values.end(), condition.value) == parameter->values.end())
            fields.say(element.line, "when " + in_quotes(text) + ": no such value",
                       "write " + parameter->id + "= and one of: " + join(parameter->values, ", "));
        return condition;
    }

    const Parameter* find(Fields& fields, const xml::Element& element, const std::string& id) {
        for (const Parameter& one : plan_.parameters)
            if (one.id == id) return &one;
        fields.say(element.line, "there is no parameter " + in_quotes(id),
                   "list it first: <parameter id=\"" + id + "\" …/>");
        return nullptr;
    }

    const xml::Element& root_;
    const std::string& file_;
    Problems& problems_;
    Plan plan_;
};

}  // namespace

void read_plan(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Plan plan = PlanReader(root, file, problems).read();
    for (Plan& known : trade.plans)
        if (known.id == plan.id) {
            known = std::move(plan);
            return;
        }
    trade.plans.push_back(std::move(plan));
}

}  // namespace rigdeed::trade
