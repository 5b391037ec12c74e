#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cstdlib>
#include <thread>

#include "base/build.hpp"
#include "base/date.hpp"
#include "base/file.hpp"
#include "base/process.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "evidence/disk_store.hpp"
#include "pipeline.hpp"

namespace rigdeed::command {
namespace {

constexpr std::array worst_first{ExitCode::bug,        ExitCode::could_not_run,  ExitCode::not_as_issued,
                                 ExitCode::incomplete, ExitCode::signer_unknown, ExitCode::done};

constexpr const char* about =
    "rigdeed makes a sealed PDF report of a survey file and photos of a yacht's standing rigging,\n"
    "and says of such a report whether it is as issued.";

constexpr const char* exit_codes =
    "Exit codes: 0 done, complete, as issued by the signer named · 2 could not run · 3 survey incomplete,\n"
    "nothing issued · 4 not as issued · 5 intact, but the signer was not named or is not trusted · 70 a bug\n";

}  // namespace

trade::Trade Common::trade(std::string_view language) const {
    return trade::load_trade(templates.empty() ? trade::OwnTemplates{} : trade::read_own_templates(templates),
                             language);
}

unsigned Common::threads() const { return jobs > 0 ? jobs : std::max(1U, std::thread::hardware_concurrency()); }

std::unique_ptr<evidence::CopyStore> Common::store() const {
    constexpr std::uint64_t most = std::uint64_t{1} << 30;
    const auto folder = no_store ? std::nullopt : evidence::store_folder();
    return folder ? std::make_unique<evidence::DiskStore>(*folder, most) : nullptr;
}

std::optional<UnitSystem> Common::unit_system() const {
    for (const auto& row : survey::names(UnitSystem{}))
        if (row.name == units) return row.value;
    return std::nullopt;
}

ExitCode worse(ExitCode a, ExitCode b) {
    return std::find(worst_first.begin(), worst_first.end(), a) < std::find(worst_first.begin(), worst_first.end(), b)
               ? a
               : b;
}

std::string read_passphrase(const std::string& file, const std::string& prompt, bool twice) {
    if (!file.empty()) {
        const Bytes bytes = read_file(file, 4096);
        const std::string_view text = as_text(bytes);
        return std::string(text.substr(0, text.find_first_of("\r\n")));
    }
    if (const char* set = std::getenv("RIGDEED_PASSPHRASE"); set != nullptr) return set;
    return ask_passphrase(prompt, twice);
}

bool is_moment_typed(const std::string& issued_on) {
    const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
    return !issued_on.empty() || (epoch != nullptr && *epoch != '\0');
}

std::int64_t issue_moment(const std::string& issued_on) {
    if (!issued_on.empty()) {
        const auto date = read_date(issued_on);
        if (!date)
            throw Error("--issued-on " + in_quotes(issued_on) + " is not a date that exists", {},
                        "write for example 2026-10-05");
        return days_since_epoch(*date) * 86400;
    }
    if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH"); epoch != nullptr && *epoch != '\0') {
        const std::string_view text = epoch;
        std::int64_t seconds = 0;
        const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), seconds);
        if (code != std::errc{} || end != text.data() + text.size() || seconds < 0 || seconds > 253402300799)
            throw Error("SOURCE_DATE_EPOCH " + in_quotes(text) + " is not a number of seconds", {},
                        "unset it or give seconds since 1970");
        return seconds;
    }
    return std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch())
        .count();
}

int run(int argc, const char* const* argv) {
    settle_process();
    Common common;
    ExitCode code = ExitCode::done;
    CLI::App app{about, "rigdeed"};
    app.footer(exit_codes);
    app.set_version_flag("--version", "rigdeed " + std::string(version()));
    app.require_subcommand(1);
    app.fallthrough();
    app.add_flag("--json", common.json, "Write the result as JSON");
    app.add_flag("--quiet", common.quiet, "Say nothing but the result and errors");
    app.add_option("--templates", common.templates, "Folder with templates of your own")->type_name("DIR");
    app.add_option("--jobs", common.jobs, "Threads; by default one a core")
        ->type_name("N")
        ->check(CLI::Range(1U, 256U));
    app.add_flag("--no-store", common.no_store, "Neither use nor keep copies of photos in the user's cache folder");
    app.add_option("--units", common.units,
                   "Units of what is calculated; by default as the survey file says, else metric")
        ->type_name("UNITS")
        ->check(CLI::IsMember({"metric", "us", "both"}));
    for (auto* add : {add_plans, add_start, add_signs, add_check, add_climb, add_pair, add_mark, add_issue, add_verify,
                      add_compare, add_history, add_unpack, add_signer})
        add(app, common, code);

    try {
        app.parse(argc, argv);
        common.terminal().finish();
        return static_cast<int>(code);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error) == 0 ? 0 : static_cast<int>(ExitCode::could_not_run);
        common.terminal().error(
            Error(error.what(), {}, "rigdeed --help lists the commands, rigdeed COMMAND --help their options"));
        return static_cast<int>(ExitCode::could_not_run);
    } catch (const OutputClosed&) {
        return static_cast<int>(worse(code, ExitCode::could_not_run));
    } catch (const Error& error) {
        common.terminal().error(error);
        return static_cast<int>(error.code);
    } catch (const std::filesystem::filesystem_error& error) {
        common.terminal().error(Error(error.code().message(), error.path1().string()));
        return static_cast<int>(ExitCode::could_not_run);
    } catch (const std::bad_alloc&) {
        common.terminal().error(Error("out of memory", {}, "try --jobs 1"));
        return static_cast<int>(ExitCode::could_not_run);
    } catch (const std::exception& error) {
        common.terminal().error(
            Error(std::string("internal: ") + error.what(), {}, "please report this", ExitCode::bug));
        return static_cast<int>(ExitCode::bug);
    }
}

}  // namespace rigdeed::command
