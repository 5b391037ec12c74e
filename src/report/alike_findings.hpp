#pragma once

#include <string>
#include <vector>

#include "report/compose.hpp"

namespace rigdeed::report {

/// Shape, name, verdict and why, with its anchor and its work.
[[nodiscard]] document::FindingHead finding_head(const Material& material, const assessment::FittingVerdict& one);

/// Nothing of its own to tell: not seen, or seen and no sign, but what a limit says of it.
[[nodiscard]] bool tells_nothing_of_its_own(const Material& material, const assessment::FittingVerdict& one);

/// Findings that tell nothing of their own, and of which what it means is the same words: told together, where the
/// first of them stands.
class AlikeFindings {
 public:
    explicit AlikeFindings(const Material& material) : material_(material) {}

    /// Whether it begins a group, which then is this piece of the stack.
    bool take(const assessment::FittingVerdict& one, std::size_t piece);
    void write(document::Stack& stack) const;

    struct Group {
        std::vector<const assessment::FittingVerdict*> members;
        document::TwoTexts meaning;  ///< this and the source with their names left open (open_names.hpp)
        std::string source;
        std::size_t piece = 0;
    };

 private:
    const Material& material_;
    std::vector<Group> groups_;
};

}  // namespace rigdeed::report
