#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "verify/verify.hpp"

namespace rigdeed::verify {

/// Where a report differs from one made anew from its own survey: every object, every content stream unpacked, each
/// picture by the digest that the hollow one in its place names; all but the signature's value. Empty if nowhere. Both
/// files must have passed verify's checks of structure, or what does not is the difference.
[[nodiscard]] std::string first_difference(std::string_view report, std::string_view made_anew);

/// What stands in the pictures of a report that passed the checks of structure, within `report`; none of any other
/// file.
[[nodiscard]] std::vector<std::string_view> picture_contents(std::string_view report);

/// The picture with this SHA-256; nothing if there is none, or the file did not pass.
[[nodiscard]] std::optional<std::string_view> picture(std::string_view report, const Digest& sha256);

/// The finding as one more check of an intact report.
void judge_content(Verdict& verdict, const std::string& difference);
/// Why the pages could not be made anew; no fault of the report.
void leave_content_open(Verdict& verdict, const std::string& because);

}  // namespace rigdeed::verify
