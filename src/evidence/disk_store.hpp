#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "evidence/copies.hpp"

namespace rigdeed::evidence {

/// Copies, and what was found out about photos, in a folder of the user's own; one file each, named by the digest of
/// its key, holding that digest and the digest of what it keeps. What is missing, not whole, of somebody else or for
/// another key is as if it were not there; what cannot be written is not kept: nothing about it can fail a run. Several
/// threads and several runs may use one folder at once.
class DiskStore : public CopyStore {
 public:
    /// Makes the folder if need be, for the user alone. After a run that kept something, what was not used for half a
    /// year goes, then what was not used longest, until `most` bytes are left.
    DiskStore(const std::filesystem::path& folder, std::uint64_t most);
    ~DiskStore() override;

    [[nodiscard]] std::optional<Copy> find(const CopyKey& key) override;
    void keep(const CopyKey& key, const Copy& copy) override;
    [[nodiscard]] std::optional<std::string> find_facts(std::string_view kind, const Digest& original) override;
    void keep_facts(std::string_view kind, const Digest& original, std::string_view facts) override;

 private:
    [[nodiscard]] std::optional<std::string> load(const Digest& key) const;
    void save(const Digest& key, std::string_view content);
    void tidy() const;

    int folder_ = -1;  ///< open; -1: there is none that can be trusted
    std::uint64_t most_ = 0;
    std::atomic<bool> kept_ = false, full_ = false;
    std::atomic<unsigned> written_ = 0;
};

/// Beneath XDG_CACHE_HOME, or ".cache" in HOME (XDG Base Directory Specification); nothing if neither is known.
[[nodiscard]] std::optional<std::filesystem::path> store_folder();

}  // namespace rigdeed::evidence
