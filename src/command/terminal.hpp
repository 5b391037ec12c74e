#pragma once

#include <string>
#include <string_view>

#include "base/error.hpp"
#include "base/problem.hpp"

/// The only code that prints. The result goes to stdout, the talk to stderr.
///   rigdeed: error: survey.xml:42: fitting "tang-3": height "12,4 m" is not a length
///   rigdeed: hint: write "12.4 m"
/// Colour only on a terminal and without NO_COLOR (no-color.org); progress only on a terminal.
namespace rigdeed::command {

/// Thrown when whoever read the result has gone: there is nobody to tell, and nothing more to say.
struct OutputClosed {};

class Terminal {
 public:
    explicit Terminal(bool quiet);

    /// A line of the result. Throws Error if stdout cannot be written, OutputClosed if nobody reads it any more.
    void result(std::string_view line) const;
    /// Bytes of the result as they are.
    void raw_result(std::string_view bytes) const;
    /// A remark on what was done; silent with --quiet.
    void note(std::string_view line) const;
    void problem(const Problem& problem) const;
    void error(const Error& error) const;
    /// "reading photos 12/96", rewritten in place; `done` = `all` clears it.
    void progress(std::string_view what, std::size_t done, std::size_t all) const;
    /// Flushes stdout; throws as `result` does if what was written did not arrive.
    void finish() const;

    enum class Emphasis { strong, bad, good };
    [[nodiscard]] std::string emphasised(std::string_view text, Emphasis emphasis) const;

 private:
    bool quiet_;
    bool colour_out_;
    bool colour_err_;
    bool live_;
};

/// The text with its lines broken between words, so that none is wider than `columns` where words allow; what goes on
/// stands two farther in than its line. As it is for less than 20 columns.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t columns);

/// Reads a passphrase without showing it; asks twice if `twice`. Throws Error if there is no terminal.
[[nodiscard]] std::string ask_passphrase(const std::string& prompt, bool twice);

}  // namespace rigdeed::command
