#pragma once

#include <optional>
#include <string>
#include <vector>

#include "document/block.hpp"
#include "report/compose.hpp"

/// What a report says of the one before it, outside the chapter that is about it.
namespace rigdeed::report {

/// "since 12 May 2025 …": one line of the cover; empty where nothing is compared.
[[nodiscard]] std::string changes_in_short(const Material& material);
/// What a fitting was last time, in a sentence; empty where nothing is compared.
[[nodiscard]] std::string last_time(const Material& material, const assessment::FittingVerdict& one);
/// Last time's picture of it, if one was taken over.
[[nodiscard]] std::optional<document::Picture> last_picture(const Material& material,
                                                            const assessment::FittingVerdict& one);
/// What has become of a fitting since, a line a thing.
[[nodiscard]] std::vector<std::string> became(const years::FittingChange& one, const trade::Wording& words);

}  // namespace rigdeed::report
