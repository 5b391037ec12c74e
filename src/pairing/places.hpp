#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "survey/survey.hpp"

/// Places: where several fittings are looked at without moving on, as the foot of one stay or the end of one spreader.
/// Each has a code that can be printed, photographed and read again.
namespace rigdeed::pairing {

struct Place {
    std::string id;                     ///< five letters and digits out of stay and station, or mast, side and station
    std::vector<std::size_t> fittings;  ///< by their places in the survey, which is the climbing order
};

/// Every fitting is in one place; places in order of their first fitting.
[[nodiscard]] std::vector<Place> places_of(const survey::Survey& survey);

/// What a photo of a code says.
struct Code {
    std::string survey;  ///< five letters and digits out of its number
    std::string place;
    survey::Way pass = survey::Way::up;

    bool operator==(const Code&) const = default;
};

[[nodiscard]] Code code_of(const survey::Survey& survey, const Place& place, survey::Way pass);
/// Thirteen of the letters and digits that QR codes write shortest: "RD", survey, place, U or D.
[[nodiscard]] std::string code_text(const Code& code);
/// Nothing if it is no such text.
[[nodiscard]] std::optional<Code> read_code(std::string_view text);

}  // namespace rigdeed::pairing
