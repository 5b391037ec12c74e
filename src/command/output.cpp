#include "command/output.hpp"

#include "base/error.hpp"
#include "base/file.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

bool is_same_file(const fs::path& one, const fs::path& other) {
    std::error_code absent;
    return fs::weakly_canonical(one) == fs::weakly_canonical(other) || fs::equivalent(one, other, absent);
}

// As every seal says in its dictionary (ISO 32000-2, 12.8.3.4), whoever made it.
bool is_sealed(const fs::path& path) {
    constexpr std::uint64_t largest = 2'000'000'000;
    const Bytes bytes = read_file(path, largest);
    return as_text(bytes).starts_with("%PDF") && as_text(bytes).find("/ETSI.CAdES.detached") != std::string_view::npos;
}

}  // namespace

void refuse_source(const fs::path& output, const std::vector<fs::path>& sources, const std::string& what) {
    for (const fs::path& source : sources)
        if (!source.empty() && is_same_file(source, output))
            throw Error(what + " would take the place of its own source", output.string(),
                        "choose another name for what is written");
}

void refuse_existing(const fs::path& output, bool force) {
    if (!fs::is_regular_file(output)) return;  // writing it says what else it is
    if (is_sealed(output))
        throw Error("is there already, a sealed report, and is not overwritten", output.string(),
                    "choose another name; a corrected report has a number and a name of its own, and --replaces");
    if (!force) throw Error("is there already", output.string(), "choose another name, or overwrite it with --force");
}

bool is_page(const fs::path& path) {
    constexpr std::uint64_t largest = 200'000'000;
    if (!fs::is_regular_file(path)) return false;
    const Bytes bytes = read_file(path, largest);
    return as_text(bytes).find("name=\"generator\" content=\"rigdeed ") < 4000;
}

void refuse_any_existing(const fs::path& output) {
    if (fs::exists(fs::symlink_status(output)))
        throw Error("is there already", output.string(), "it is not overwritten; choose another name");
}

}  // namespace rigdeed::command
