#include <CLI/CLI.hpp>

#include <memory>

#include "base/file.hpp"
#include "base/folders.hpp"
#include "command/command.hpp"
#include "reopen/reopen.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

struct UnpackOptions {
    std::string file;
    std::string folder;
    bool unverified = false;
};

/// Opened as for `verify`. Unless it is wanted so, nothing comes out of a report that is not as issued.
verify::Verdict read(const UnpackOptions& options) {
    reopen::Opening opening;
    opening.carried_unverified = options.unverified;
    reopen::SealedReport report = reopen::open_report(options.file, opening);
    const ExitCode code = report.verdict.exit_code();
    if (report.verdict.intact()) return std::move(report.verdict);
    if (!options.unverified)
        throw Error("the report is not as issued: " + report.verdict.summary, options.file,
                    "--unverified unpacks it all the same; what comes out proves nothing", code);
    if (report.verdict.files.empty())
        throw Error("no survey could be read out of it", options.file, report.verdict.summary, code);
    return std::move(report.verdict);
}

ExitCode unpack(const UnpackOptions& options, const Common& common) {
    const Terminal terminal = common.terminal();
    const verify::Verdict verdict = read(options);
    const fs::path folder = options.folder;
    make_folders(folder);
    for (const verify::CarriedFile& one : verdict.files)
        if (fs::exists(folder / one.name))
            throw Error("is there already", (folder / one.name).string(), "unpack into a new folder");
    for (const verify::CarriedFile& one : verdict.files) {
        write_file(folder / one.name, as_text(one.bytes));
        terminal.result((folder / one.name).string());
    }
    if (verdict.intact()) return ExitCode::done;
    terminal.error(
        Error("the report is not as issued: " + verdict.summary, options.file, "do not rely on what was unpacked"));
    return ExitCode::not_as_issued;
}

}  // namespace

void add_unpack(CLI::App& app, Common& common, ExitCode& code) {
    auto options = std::make_shared<UnpackOptions>();
    CLI::App* command = app.add_subcommand("unpack", "The survey file and photo register out of a report");
    command->add_option("PDF", options->file, "Sealed report")->required()->type_name("FILE");
    command->add_option("-o,--output", options->folder, "Folder to write them to")->required()->type_name("DIR");
    command->add_flag("--unverified", options->unverified,
                      "Unpack a report that is not as issued, or a preview; the exit code stays 4");
    command->callback([options, &common, &code] { code = unpack(*options, common); });
}

}  // namespace rigdeed::command
