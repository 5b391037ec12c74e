#include "trade/tables.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::trade {
namespace {

template <class Rows, class Id>
auto find(const Rows& rows, std::string_view id, Id member) {
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.*member == id; });
    return found == rows.end() ? nullptr : &*found;
}

}  // namespace

const MeasureName* Tables::measure(std::string_view id) const { return find(measures, id, &MeasureName::id); }
const Construction* Tables::construction(std::string_view make) const {
    return find(constructions, make, &Construction::id);
}
const Metal* Tables::metal(std::string_view id) const { return find(metals, id, &Metal::id); }
const Band* Tables::band(std::string_view make) const { return find(bands, make, &Band::make); }
const LoadShare* Tables::share(std::string_view role) const { return find(shares, role, &LoadShare::role); }

const Constant& Tables::constant(std::string_view id) const {
    const Constant* row = find(constants, id, &Constant::id);
    if (row == nullptr) throw Error("no constant " + in_quotes(id), "tables/calculations.xml", {}, ExitCode::bug);
    return *row;
}

const Plausible& Tables::plausible_of(std::string_view id) const {
    const Plausible* row = find(plausible, id, &Plausible::id);
    if (row == nullptr) throw Error("no limit " + in_quotes(id), "tables/plausible.xml", {}, ExitCode::bug);
    return *row;
}

const std::string& Tables::source_of(std::string_view calculation) const {
    const FormulaSource* row = find(formulas, calculation, &FormulaSource::id);
    if (row == nullptr)
        throw Error("no formula " + in_quotes(calculation), "tables/calculations.xml", {}, ExitCode::bug);
    return row->source;
}

}  // namespace rigdeed::trade
