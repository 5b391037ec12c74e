#pragma once

#include <filesystem>

namespace rigdeed {

/// A folder, and those above it, as far as they are missing; each is synced into the one that holds it, so that what is
/// written there is not lost with it. Throws Error if one cannot be made.
void make_folders(const std::filesystem::path& path);

/// What was made or renamed in a folder stays after a power cut. Throws Error.
void sync_folder(const std::filesystem::path& folder);

}  // namespace rigdeed
