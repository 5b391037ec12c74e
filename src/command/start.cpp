#include <CLI/CLI.hpp>

#include <memory>

#include "base/date.hpp"
#include "base/file.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "survey/write_survey.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

std::string options_of(const trade::Plan& plan) {
    std::vector<std::string> all;
    for (const trade::Parameter& parameter : plan.parameters)
        all.push_back(parameter.id + "=" + join(parameter.values, "|"));
    return join(all, " ");
}

ExitCode list_plans(const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    JsonWriter json;
    json.begin_array();
    for (const trade::Plan& plan : trade.plans) {
        if (common.json) {
            json.begin_object()
                .field("id", plan.id)
                .field("name", plan.name)
                .field("says", plan.says)
                .key("parameters")
                .begin_array();
            for (const trade::Parameter& parameter : plan.parameters) {
                json.begin_object()
                    .field("id", parameter.id)
                    .field("says", parameter.says)
                    .field("standard", parameter.standard)
                    .key("values")
                    .begin_array();
                for (const std::string& value : parameter.values) json.value(value);
                json.end().end();
            }
            json.end().end();
            continue;
        }
        const std::string padding(plan.id.size() < 22 ? 22 - plan.id.size() : 1, ' ');
        terminal.result(plan.id + padding + plan.says);
        if (const std::string options = options_of(plan); !options.empty())
            terminal.result(std::string(24, ' ') + "--set " + options);
    }
    json.end();
    if (common.json) terminal.raw_result(json.text());
    return ExitCode::done;
}

trade::Settings read_settings(const std::vector<std::string>& texts) {
    trade::Settings settings;
    for (const std::string& text : texts) {
        const auto sign = text.find('=');
        if (sign == std::string::npos || sign == 0)
            throw Error("--set " + in_quotes(text) + " is not NAME=VALUE", {}, "write for example --set spreaders=2");
        settings[text.substr(0, sign)] = text.substr(sign + 1);
    }
    return settings;
}

const trade::Plan& find_plan(const trade::Trade& trade, const std::string& id) {
    if (const trade::Plan* plan = trade.plan(id)) return *plan;
    std::vector<std::string> ids;
    for (const trade::Plan& plan : trade.plans) ids.push_back(plan.id);
    throw Error("there is no plan " + in_quotes(id), {},
                "the nearest: " + join(nearest(id, ids), ", ") + "; rigdeed plans lists all");
}

ExitCode start(const std::string& id, const std::vector<std::string>& texts, const std::string& output,
               const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    const survey::Survey survey = trade::start_survey(find_plan(trade, id), read_settings(texts),
                                                      local_from_seconds(issue_moment({})).date, trade);
    const fs::path folder = output;
    if (fs::exists(folder / "survey.xml"))
        throw Error("is there already", (folder / "survey.xml").string(), "start in a new folder");
    std::error_code failed;
    fs::create_directories(folder / "photos", failed);
    if (failed) throw Error("cannot make the folder: " + failed.message(), (folder / "photos").string());
    write_file(folder / "survey.xml", survey::write_survey(survey));
    terminal.result((folder / "survey.xml").string());
    terminal.note(counted(survey.stays.size(), "stay") + " and " + counted(survey.fittings.size(), "fitting") +
                  "; fill in every \"?\" and what you measure, copy the photos to " + (folder / "photos").string());
    return ExitCode::done;
}

}  // namespace

void add_plans(CLI::App& app, Common& common, ExitCode& code) {
    app.add_subcommand("plans", "The rig plans that a survey can start from")->callback([&common, &code] {
        code = list_plans(common);
    });
}

void add_start(CLI::App& app, Common& common, ExitCode& code) {
    auto plan = std::make_shared<std::string>();
    auto settings = std::make_shared<std::vector<std::string>>();
    auto output = std::make_shared<std::string>();
    CLI::App* command =
        app.add_subcommand("start", "A new survey folder with every fitting of a rig in climbing order");
    command->add_option("PLAN", *plan, "Rig plan; rigdeed plans lists them")->required()->type_name("PLAN");
    command->add_option("--set", *settings, "Choose a parameter of the plan")->type_name("NAME=VALUE");
    command->add_option("-o,--output", *output, "Folder to make")->required()->type_name("DIR");
    command->callback([plan, settings, output, &common, &code] { code = start(*plan, *settings, *output, common); });
}

}  // namespace rigdeed::command
