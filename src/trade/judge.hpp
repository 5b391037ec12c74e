#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/trade.hpp"

namespace rigdeed::trade {

/// A sign as it was seen, with the rule for it. Pointers live as long as survey and trade.
struct JudgedSign {
    const survey::Sign* sign = nullptr;
    const survey::Seen* seen = nullptr;  ///< null: told by a measure, in no pass
    const SignRule* rule = nullptr;
    bool bars = false;  ///< bars climbing, seen at this fitting's station
};

/// Whether the sign, seen at this fitting's station, bars climbing.
[[nodiscard]] bool bars_at(const SignRule& rule, const survey::Fitting& fitting);
/// All signs of a fitting, of both passes. The survey's names must have been checked.
[[nodiscard]] std::vector<JudgedSign> judge(const survey::Fitting& fitting, const Trade& trade);
/// The worst verdict among them; sound if there is none.
[[nodiscard]] Verdict worst(const std::vector<JudgedSign>& signs);
/// What the signs of one pass alone would say.
[[nodiscard]] Verdict worst_in(const std::vector<JudgedSign>& signs, survey::Way pass);

/// "port cap shroud"
[[nodiscard]] std::string stay_name(const survey::Stay& stay, const Trade& trade);
/// Without its stay: "lower swaged terminal"; "starboard spreader tip"
/// What the survey before said of a fitting: "last time: watch; tea stain"; empty if this one does not say.
[[nodiscard]] std::string said_before(const survey::Fitting& fitting, const Trade& trade);
[[nodiscard]] std::string own_name(const survey::Fitting& fitting, const survey::Survey& survey, const Trade& trade);
/// "port cap shroud, lower swaged terminal"; "starboard spreader tip"
[[nodiscard]] std::string fitting_name(const survey::Fitting& fitting, const survey::Survey& survey,
                                       const Trade& trade);

/// Both names of a fitting.
struct FittingNames {
    std::string whole;
    std::string own;
};
/// Of every fitting, in their order; the same as one by one, in time that grows as their number does.
[[nodiscard]] std::vector<FittingNames> names_of_fittings(const survey::Survey& survey, const Trade& trade);

/// Whether a fitting of this stay stands at its lower end: at the deck. Of a stay that runs at the deck alone or
/// nowhere comes down to it, what stands below the middle between its terminals.
[[nodiscard]] bool at_lower_end(const survey::Fitting& fitting, const survey::Stay& stay, const survey::Survey& survey,
                                const Trade& trade);

}  // namespace rigdeed::trade
