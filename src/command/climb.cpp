#include <CLI/CLI.hpp>

#include <memory>

#include "base/file.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "command/options.hpp"
#include "command/output.hpp"
#include "pipeline.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

struct ClimbWishes {
    std::string file;
    std::string output;
    std::string paper;
    std::string language;
    bool missing = false;
    bool no_codes = false;
    bool cards = false;
    bool force = false;
};

/// A folder gets a file of a name of its own; the survey itself is never written over.
fs::path target(const ClimbWishes& wishes) {
    fs::path output = wishes.output;
    if (fs::is_directory(output)) output /= wishes.cards ? "cards.pdf" : "climb-sheet.pdf";
    refuse_source(output, {wishes.file}, "the sheet");
    refuse_existing(output, wishes.force);
    return output;
}

ExitCode climb(const ClimbWishes& wishes, const Common& common) {
    const Terminal terminal = common.terminal();
    const fs::path output = target(wishes);
    trade::Trade trade = common.trade();
    trade = common.trade(wishes.language.empty() ? trade.letterhead.language : wishes.language);
    const PaperSize paper = read_paper(wishes.paper).value_or(trade.letterhead.paper);
    const ClimbSheet sheet =
        climb_sheet(wishes.file, trade, wishes.missing ? sheet::Scope::missing : sheet::Scope::everything,
                    wishes.cards      ? sheet::Codes::as_cards
                    : wishes.no_codes ? sheet::Codes::none
                                      : sheet::Codes::with_rows,
                    paper, issue_moment({}));
    for (const Problem& problem : sheet.problems) terminal.problem(problem);
    if (!sheet.problems.empty()) {
        terminal.note(counted(sheet.problems.size(), "problem") + " in " + wishes.file + "; nothing was done");
        return ExitCode::could_not_run;
    }
    const bool made = !sheet.pdf.empty();
    if (made) write_file(output, sheet.pdf);
    if (common.json) {
        JsonWriter json;
        json.begin_object().field("file", made ? output.string() : std::string()).field("pages", sheet.pages);
        json.key("codes").begin_array();
        for (const ClimbSheet::Place& place : sheet.places) {
            json.begin_object().key("fittings").begin_array();
            for (const std::string& fitting : place.fittings) json.value(fitting);
            json.end().field("up", place.up).field("down", place.down).end();
        }
        json.end().end();
        terminal.raw_result(json.text());
    } else if (made) {
        terminal.result(output.string());
        terminal.note(counted(sheet.pages, "page") + "; what is written on it counts once it stands in the survey");
    } else {
        terminal.note("no look and no pair of photos is missing in " + wishes.file + "; nothing was written");
    }
    return ExitCode::done;
}

}  // namespace

void add_climb(CLI::App& app, Common& common, ExitCode& code) {
    auto wishes = std::make_shared<ClimbWishes>();
    CLI::App* command = app.add_subcommand("climb", "The climb sheet, to print and take up the mast");
    command->add_option("SURVEY", wishes->file, "Survey file, new or half filled in")->required()->type_name("FILE");
    command->add_option("-o,--output", wishes->output, "The sheet to write, or a folder for it")
        ->required()
        ->type_name("PDF|DIR");
    command->add_flag("--force", wishes->force, "Overwrite a file of that name, unless it is a sealed report");
    command->add_flag("--missing", wishes->missing, "Only fittings of which a look or a pair of photos is missing");
    command->add_flag("--no-codes", wishes->no_codes, "Without the codes that tell `pair` where photos were taken");
    command->add_flag("--cards", wishes->cards, "Only the codes, as cards for a ring, one a place, four a page")
        ->excludes("--missing")
        ->excludes("--no-codes");
    add_paper(*command, wishes->paper, "sheet");
    add_language(*command, wishes->language, "sheet");
    command->callback([wishes, &common, &code] { code = climb(*wishes, common); });
}

}  // namespace rigdeed::command
