#pragma once

#include <filesystem>
#include <string>
#include <vector>

/// What commands write never takes the place of something by accident.
namespace rigdeed::command {

/// Throws Error if `output` is one of the files that `what` is made from, by whatever path or link. Sources without a
/// name are none.
void refuse_source(const std::filesystem::path& output, const std::vector<std::filesystem::path>& sources,
                   const std::string& what);

/// Throws Error if there is a file of that name already: without `force`, and with it if it is a sealed report.
void refuse_existing(const std::filesystem::path& output, bool force);

/// Throws Error if there is anything of that name already.
void refuse_any_existing(const std::filesystem::path& output);

/// Whether a page of ours is there: it may be made anew, for it holds nothing that was typed into it.
[[nodiscard]] bool is_page(const std::filesystem::path& path);

}  // namespace rigdeed::command
