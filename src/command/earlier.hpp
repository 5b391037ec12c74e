#pragma once

#include <string>
#include <vector>

#include "assessment/assessment.hpp"
#include "command/terminal.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

namespace rigdeed::command {

/// A survey that is compared with, or that another starts from; judged by the rules of this program.
struct EarlierSurvey {
    EarlierSurvey() = default;
    EarlierSurvey(const EarlierSurvey&) = delete;  // `assessment` points into `survey`
    EarlierSurvey& operator=(const EarlierSurvey&) = delete;

    survey::Survey survey;
    assessment::Assessment assessment;
    std::string sha256;  ///< of the sealed report, in hex; empty: it is a survey file
    std::string signer;  ///< of the sealed report
};

/// Reads a survey file, or the survey that a sealed report carries, which is verified first; says whose seal it is.
/// Throws Error for one that is not as issued, or that has problems, which are printed.
void read_earlier(const std::string& file, const trade::Trade& trade, const Terminal& terminal, EarlierSurvey& into);

/// The follow-ups of a sealed report, oldest first, put into the survey that comes after it. Verifies each and says
/// whose seal it is. Throws Error for one that is not as issued, or answers another report.
void take_follow_ups(const std::vector<std::string>& files, const std::string& report_sha256, survey::Survey& next,
                     const Terminal& terminal);

}  // namespace rigdeed::command
