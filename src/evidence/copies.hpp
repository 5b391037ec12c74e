#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>

#include "base/bytes.hpp"
#include "evidence/evidence.hpp"

namespace rigdeed::evidence {

/// What a print copy was made from, and how: the same key, the same pixels.
struct CopyKey {
    Digest original;                   ///< SHA-256 of the photo's file
    int side = 0;                      ///< pixels along the longer side; 0: only found out that it can be decoded
    std::optional<survey::Mark> mark;  ///< the square round it, instead of the whole picture
    std::string build;                 ///< of the program that made it

    bool operator<(const CopyKey& other) const;
};

struct Copy {
    PrintCopy picture;                  ///< empty for `side` 0 without a mark
    std::optional<survey::Mark> shown;  ///< of a square: what it shows
};

/// Copies made before. Used by several threads at once.
class CopyStore {
 public:
    CopyStore() = default;
    virtual ~CopyStore() = default;
    CopyStore(const CopyStore&) = delete;
    CopyStore& operator=(const CopyStore&) = delete;

    [[nodiscard]] virtual std::optional<Copy> find(const CopyKey& key) = 0;
    virtual void keep(const CopyKey& key, const Copy& copy) = 0;

    /// What was found out about a photo's file, by its digest; nothing is known unless a store keeps it.
    [[nodiscard]] virtual std::optional<std::string> find_facts(std::string_view, const Digest&) {
        return std::nullopt;
    }
    virtual void keep_facts(std::string_view, const Digest&, std::string_view) {}
};

/// Nothing is kept where nothing is asked for again.
class NoCopies : public CopyStore {
 public:
    [[nodiscard]] std::optional<Copy> find(const CopyKey&) override { return std::nullopt; }
    void keep(const CopyKey&, const Copy&) override {}
};

/// For one run of the program.
class CopiesInMemory : public CopyStore {
 public:
    [[nodiscard]] std::optional<Copy> find(const CopyKey& key) override;
    void keep(const CopyKey& key, const Copy& copy) override;

 private:
    std::mutex guard_;
    std::map<CopyKey, Copy> copies_;
};

}  // namespace rigdeed::evidence
