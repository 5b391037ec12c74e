#pragma once

#include <string>
#include <vector>

#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// The schedule of sizes: what a rigger needs to order a stay, out of the survey's ends and fittings.
namespace rigdeed::assessment {

/// Empty where it is not known.
struct EndSizes {
    std::string terminal;  ///< kind of fitting
    std::string form;      ///< as in the survey file: "eye"
    std::string pin;       ///< as written, with its unit
    std::string thread;
    std::string hand;
    std::string toggle;  ///< "yes", "no"
    std::string hole;
};

struct StaySizes {
    const survey::Stay* stay = nullptr;
    EndSizes bottom;
    EndSizes top;
    std::vector<std::string> wanted;  ///< keys of the wording, "sizes.want.…", without their beginning
};

[[nodiscard]] std::vector<StaySizes> schedule_of_sizes(const survey::Survey& survey, const trade::Trade& trade);

}  // namespace rigdeed::assessment
