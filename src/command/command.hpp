#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "command/terminal.hpp"
#include "evidence/copies.hpp"
#include "trade/trade.hpp"

namespace CLI {
class App;
}

/// One file a command: its options, and what it does with them.
namespace rigdeed::command {

/// Options that every command has.
struct Common {
    bool json = false;
    bool quiet = false;
    std::string templates;
    unsigned jobs = 0;  ///< 0: one a core
    bool no_store = false;
    std::string units;  ///< metric, us, both; empty: as the survey says

    [[nodiscard]] Terminal terminal() const { return Terminal(quiet); }
    [[nodiscard]] trade::Trade trade(std::string_view language = "en") const;
    [[nodiscard]] unsigned threads() const;
    /// Copies of photos from earlier runs, in the user's cache folder; null if there is to be none.
    [[nodiscard]] std::unique_ptr<evidence::CopyStore> store() const;
    [[nodiscard]] std::optional<UnitSystem> unit_system() const;
};

/// Registers a command with the parser; running it stores its exit code in `code`.
void add_plans(CLI::App& app, Common& common, ExitCode& code);
void add_start(CLI::App& app, Common& common, ExitCode& code);
void add_signs(CLI::App& app, Common& common, ExitCode& code);
void add_check(CLI::App& app, Common& common, ExitCode& code);
void add_mark(CLI::App& app, Common& common, ExitCode& code);
void add_pair(CLI::App& app, Common& common, ExitCode& code);
void add_climb(CLI::App& app, Common& common, ExitCode& code);
void add_issue(CLI::App& app, Common& common, ExitCode& code);
void add_verify(CLI::App& app, Common& common, ExitCode& code);
void add_compare(CLI::App& app, Common& common, ExitCode& code);
void add_history(CLI::App& app, Common& common, ExitCode& code);
void add_unpack(CLI::App& app, Common& common, ExitCode& code);
void add_signer(CLI::App& app, Common& common, ExitCode& code);

/// Parses the command line, runs the command, prints an Error, returns the exit code.
[[nodiscard]] int run(int argc, const char* const* argv);

/// With several inputs the worst outcome counts: 70 before 2, 4, 3, 5 and 0.
[[nodiscard]] ExitCode worse(ExitCode a, ExitCode b);

/// From a file, RIGDEED_PASSPHRASE, or the terminal; never from the command line.
[[nodiscard]] std::string read_passphrase(const std::string& file, const std::string& prompt, bool twice);

/// Seconds since 1970-01-01 UTC: --issued-on, else SOURCE_DATE_EPOCH, else now.
[[nodiscard]] std::int64_t issue_moment(const std::string& issued_on);
/// Whether that is a date given by somebody, and not the clock's.
[[nodiscard]] bool is_moment_typed(const std::string& issued_on);

}  // namespace rigdeed::command
