#include <CLI/CLI.hpp>

#include <memory>

#include "base/file.hpp"
#include "command/command.hpp"
#include "verify/verify.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

constexpr std::uint64_t largest_report = 2'000'000'000;

ExitCode unpack(const std::string& file, const std::string& folder, const Common& common) {
    const Terminal terminal = common.terminal();
    const Bytes bytes = read_file(file, largest_report);
    const verify::Verdict verdict = verify::verify(as_text(bytes), {});
    const auto files = verify::embedded_files(as_text(bytes));
    if (files.empty()) throw Error("no survey could be read out of it", file, verdict.summary, ExitCode::not_as_issued);
    std::error_code failed;
    fs::create_directories(folder, failed);
    for (const verify::CarriedFile& one : files)
        if (fs::exists(fs::path(folder) / one.name))
            throw Error("is there already", (fs::path(folder) / one.name).string(), "unpack into a new folder");
    for (const verify::CarriedFile& one : files) {
        write_file(fs::path(folder) / one.name, as_text(one.bytes));
        terminal.result((fs::path(folder) / one.name).string());
    }
    if (verdict.intact()) return ExitCode::done;
    terminal.error(Error("the report is not as issued: " + verdict.summary, file, "do not rely on what was unpacked"));
    return ExitCode::not_as_issued;
}

}  // namespace

void add_unpack(CLI::App& app, Common& common, ExitCode& code) {
    auto file = std::make_shared<std::string>();
    auto folder = std::make_shared<std::string>();
    CLI::App* command = app.add_subcommand("unpack", "The survey file and photo register out of a report");
    command->add_option("PDF", *file, "Sealed report")->required()->type_name("FILE");
    command->add_option("-o,--output", *folder, "Folder to write them to")->required()->type_name("DIR");
    command->callback([file, folder, &common, &code] { code = unpack(*file, *folder, common); });
}

}  // namespace rigdeed::command
