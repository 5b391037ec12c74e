#pragma once

#include <string>

#include "base/fields.hpp"
#include "base/xml.hpp"
#include "trade/trade.hpp"

namespace rigdeed::trade {

/// The text of a child element; a required one that is missing or empty is a problem.
[[nodiscard]] std::string child_text(const xml::Element& element, std::string_view name, bool required, Fields& fields);

/// Each adds what one template file holds to `trade`; problems are collected with file and line.
void read_kinds(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_makes(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_roles(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_materials(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_intervals(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_plan(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_rules(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_limits(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_contradictions(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_cautions(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_measures(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_strand(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_galvanic(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_split_pins(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_bands(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_load_shares(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_plausible(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_aliases(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_calculations(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_letterhead(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_wording(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);

}  // namespace rigdeed::trade
