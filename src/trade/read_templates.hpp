#pragma once

#include <string>

#include "base/xml.hpp"
#include "trade/trade.hpp"

namespace rigdeed::trade {

/// Each adds what one template file holds to `trade`; problems are collected with file and line.
void read_kinds(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_makes(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_roles(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_materials(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_intervals(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);
void read_wording(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems);

}  // namespace rigdeed::trade
