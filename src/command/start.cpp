#include <CLI/CLI.hpp>

#include <memory>

#include "base/date.hpp"
#include "base/file.hpp"
#include "base/folders.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "command/earlier.hpp"
#include "command/works.hpp"
#include "survey/write_survey.hpp"
#include "years/next.hpp"

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

struct StartWishes {
    std::string plan;
    std::vector<std::string> settings;
    std::vector<std::string> from;  ///< the survey before, a sealed report or a survey file; then its follow-ups
    std::string works;              ///< the sealed report whose works list is to be answered
    std::string output;
};

void write_folder(const fs::path& folder, const survey::Survey& survey) {
    if (fs::exists(folder / "survey.xml"))
        throw Error("is there already", (folder / "survey.xml").string(), "start in a new folder");
    make_folders(folder / "photos");
    write_file(folder / "survey.xml", survey::write_survey(survey));
}

ExitCode start(const StartWishes& wishes, const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    const Date today = local_from_seconds(issue_moment({})).date;
    const fs::path folder = wishes.output;
    if (!wishes.works.empty()) {
        if (!wishes.plan.empty() || !wishes.from.empty() || !wishes.settings.empty())
            throw Error("--works writes the works file of a report, and nothing else goes with it", {},
                        "leave plan, --from and --set out");
        start_works(wishes.works, wishes.output, common);
        return ExitCode::done;
    }
    if (wishes.plan.empty() == wishes.from.empty())
        throw Error("say what to start from: a rig plan, or --from with the survey before, or --works with a report",
                    {}, "rigdeed plans lists the plans");
    if (!wishes.from.empty()) {
        if (!wishes.settings.empty())
            throw Error("--set chooses a parameter of a plan, and --from takes the rig as it was", {},
                        "leave --set out; change the rig in the new survey file");
        EarlierSurvey before;
        read_earlier(wishes.from.front(), trade, terminal, before);
        years::Next next = years::next_survey(before.survey, before.assessment, before.sha256, today, trade);
        take_follow_ups({wishes.from.begin() + 1, wishes.from.end()}, before.sha256, next.survey, terminal);
        write_folder(folder, next.survey);
        terminal.result((folder / "survey.xml").string());
        terminal.note(counted(next.survey.stays.size(), "stay") + " and " +
                      counted(next.survey.fittings.size(), "fitting") + " of " + before.survey.number + ", " +
                      before.survey.yacht.name +
                      (next.added > 0 ? ", " + std::to_string(next.added) + " more by its plan" : "") +
                      "; what was said of each stands in <before>; confirm what has a \"?\", fill in what is seen now");
        return ExitCode::done;
    }
    const survey::Survey survey =
        trade::start_survey(find_plan(trade, wishes.plan), read_settings(wishes.settings), today, trade);
    write_folder(folder, survey);
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
    auto wishes = std::make_shared<StartWishes>();
    CLI::App* command =
        app.add_subcommand("start", "A new survey folder with every fitting of a rig in climbing order");
    command->add_option("PLAN", wishes->plan, "Rig plan; rigdeed plans lists them")->type_name("PLAN");
    command->add_option("--set", wishes->settings, "Choose a parameter of the plan")->type_name("NAME=VALUE");
    command
        ->add_option(
            "--from", wishes->from,
            "Instead of a plan: the survey before of this rig, as sealed report or survey file; its yacht, stays "
            "and fittings, each with what was said of it; behind a report the follow-ups that answer it")
        ->type_name("FILE");
    command
        ->add_option("--works", wishes->works,
                     "Instead of a plan: a sealed report, whose works list is to be answered: done, not done, by whom")
        ->type_name("PDF");
    command->add_option("-o,--output", wishes->output, "Folder to make")->required()->type_name("DIR");
    command->callback([wishes, &common, &code] { code = start(*wishes, common); });
}

}  // namespace rigdeed::command
