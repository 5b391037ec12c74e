#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "base/paper.hpp"

namespace CLI {
class App;
}

/// Options that several commands have, and how words on the command line are read.
namespace rigdeed::command {

/// A file with a signing identity, or with certificates, is never larger.
inline constexpr std::uint64_t largest_signer = 1024 * 1024;

/// --paper and --language; `of` is what is printed: "report".
void add_paper(CLI::App& command, std::string& paper, const std::string& of);
void add_language(CLI::App& command, std::string& language, const std::string& of);

/// "15MB" or "900 kB" in bytes; decimal, as mail providers count. Nothing if it is empty; throws Error if it is no
/// size.
[[nodiscard]] std::optional<std::size_t> read_mail_size(const std::string& text);

}  // namespace rigdeed::command
