#pragma once

#include <string>
#include <vector>

#include "base/json.hpp"
#include "command/terminal.hpp"
#include "reopen/reopen.hpp"

/// Whether the reports that one compares with are those at hand.
namespace rigdeed::command {

struct EarlierFinding {
    enum class State {
        not_at_hand,  ///< no file named is it
        same,         ///< it is the very report, and what travels in the later one is what it says
        differs,      ///< it is the very report, but the later one carries another survey or record of it
    };
    record::Earlier paper;
    State state = State::not_at_hand;
    std::string file;  ///< that is it
};

struct EarlierReports {
    std::vector<EarlierFinding> papers;  ///< those that the report names, oldest first
    std::vector<std::string> strangers;  ///< files named that are none of them

    [[nodiscard]] bool fault() const;
};

/// `files` are what was named as the reports before. Throws Error if one cannot be read.
[[nodiscard]] EarlierReports find_earlier(const reopen::SealedReport& report, const std::vector<std::string>& files);

void describe(const EarlierReports& earlier, bool follow_up, const Terminal& terminal);
void describe(const EarlierReports& earlier, JsonWriter& json);

}  // namespace rigdeed::command
