#include <CLI/CLI.hpp>

#include <memory>

#include "base/date.hpp"
#include "command/describe.hpp"

namespace rigdeed::command {
namespace {

ExitCode check(const std::vector<std::string>& files, const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    InspectOptions options;
    options.jobs = common.threads();
    options.units = common.unit_system();
    options.on = local_from_seconds(issue_moment({})).date;
    options.progress = [&](std::size_t done, std::size_t all) { terminal.progress("reading photos", done, all); };
    ExitCode code = ExitCode::done;
    JsonWriter json;
    json.begin_array();
    for (const std::string& file : files) {
        const auto inspected = inspect_or_explain(file, trade, options, terminal);
        if (!inspected) {
            code = worse(code, ExitCode::could_not_run);
            continue;
        }
        if (!inspected->completeness.complete()) code = worse(code, ExitCode::incomplete);
        if (common.json) describe(*inspected, trade, json);
        else describe(*inspected, trade, terminal);
        if (!common.json && &file != &files.back()) terminal.result("");
    }
    json.end();
    if (common.json) terminal.raw_result(json.text());
    return code;
}

}  // namespace

void add_check(CLI::App& app, Common& common, ExitCode& code) {
    auto files = std::make_shared<std::vector<std::string>>();
    CLI::App* command = app.add_subcommand("check", "What is missing in a survey, and what was found");
    command->add_option("SURVEY", *files, "Survey files")->required()->type_name("FILE");
    command->callback([files, &common, &code] { code = check(*files, common); });
}

}  // namespace rigdeed::command
