#pragma once

#include <string>
#include <vector>

#include "completeness/completeness.hpp"

/// Values of a survey against templates/tables/plausible.xml and against each other.
namespace rigdeed::completeness {

/// A value, as it was written, and the number that the table's limits are for.
struct Judged {
    std::string fitting;  ///< id of the stay or fitting; empty: of the yacht
    int line = 0;
    std::string name;     ///< of the attribute
    std::string written;  ///< "8 cm"
    Measure measure = Measure::length;
    double number = 0;     ///< compared: the value itself or its ratio to something, in the table's unit
    double base = 0;       ///< the value itself, in the base unit of its measure
    bool inverse = false;  ///< twice the value makes half the number
    const trade::Plausible* limit = nullptr;

    [[nodiscard]] bool possible() const { return number >= limit->least && number <= limit->most; }
    [[nodiscard]] bool usual() const { return number >= limit->usual_least && number <= limit->usual_most; }
};

/// Every value that the table has limits for. Where the length over all cannot be, nothing is held against it.
[[nodiscard]] std::vector<Judged> judged_values(const Inspection& in);

/// The value that was probably meant: the same digits with another unit, or the point in another place; empty if none
/// of them would be usual.
[[nodiscard]] std::string probably_meant(const Judged& value);

}  // namespace rigdeed::completeness
