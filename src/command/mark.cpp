#include <CLI/CLI.hpp>

#include <memory>

#include "base/file.hpp"
#include "base/folders.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "command/options.hpp"
#include "command/output.hpp"
#include "crypto/digest.hpp"
#include "marking/marking.hpp"
#include "marks/take.hpp"
#include "pipeline.hpp"
#include "survey/edit.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed::command {
namespace {

struct MarkWishes {
    std::string file;
    std::string page, language;
    bool force = false;
    std::vector<std::string> take;
    bool dry_run = false;
    bool part = false;
};

void tell(const Problems& problems, const Terminal& terminal) {
    for (const Problem& problem : problems) terminal.problem(problem);
}

/// The text with all files in it, one after the other; nothing if there is any problem.
std::optional<std::string> with_all(const MarkWishes& wishes, std::string_view before, const Terminal& terminal) {
    std::string text(before);
    std::size_t changes = 0, already = 0, left = 0;
    for (const std::string& file : wishes.take) {
        const Bytes bytes = read_file(file, marks::largest_marks);
        const auto reading = marks::read_marks(as_text(bytes), file);
        tell(reading.problems, terminal);
        if (!reading.marks) return std::nullopt;
        if (reading.marks->survey_sha256 != crypto::sha256(before).hex())
            terminal.note("remark: " + wishes.file + " was written to since the page of " + file +
                          " was made; each change is held against what stands there now");
        marks::Taken taken = marks::take(*reading.marks, text, wishes.file, wishes.part);
        tell(taken.conflicts, terminal);
        tell(taken.problems, terminal);
        if (!taken.text) return std::nullopt;
        for (const std::string& change : taken.changes) terminal.result(change);
        changes += taken.changes.size();
        already += taken.said_already;
        left += taken.conflicts.size();
        text = std::move(*taken.text);
    }
    terminal.note(counted(changes, "change") +
                  (already > 0 ? ", " + std::to_string(already) + " more are there already" : "") +
                  (left > 0 ? ", " + std::to_string(left) + " overtaken and left out" : ""));
    return text;
}

ExitCode take(const MarkWishes& wishes, const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    const Bytes bytes = read_file(wishes.file, survey::largest_survey);
    const std::string_view before = as_text(bytes);
    const auto after = with_all(wishes, before, terminal);
    Problems problems;
    if (after) problems = problems_of(*after, wishes.file, trade);
    tell(problems, terminal);
    if (!after || !problems.empty()) {
        terminal.note("nothing was taken; " + wishes.file + " is as it was");
        return ExitCode::could_not_run;
    }
    if (wishes.dry_run || *after == before) {
        terminal.note(*after == before ? "nothing to write: " + wishes.file + " says all of it already"
                                       : "a dry run: " + wishes.file + " is as it was");
        return ExitCode::done;
    }
    survey::write_edited(wishes.file, before, *after);
    terminal.note(wishes.file + " is written");
    return ExitCode::done;
}

ExitCode make_page(const MarkWishes& wishes, const Common& common) {
    const Terminal terminal = common.terminal();
    trade::Trade trade = common.trade();
    if (const std::string& language = wishes.language.empty() ? trade.letterhead.language : wishes.language;
        language != trade.wording.language())
        trade = common.trade(language);
    const Bytes bytes = read_file(wishes.file, survey::largest_survey);
    const std::string text(as_text(bytes));
    const Problems problems = problems_of(text, wishes.file, trade);
    tell(problems, terminal);
    if (!problems.empty()) {
        terminal.note(counted(problems.size(), "problem") + " in " + wishes.file + "; no page was made");
        return ExitCode::could_not_run;
    }
    const std::filesystem::path page = wishes.page.empty()
                                           ? std::filesystem::path(wishes.file).parent_path() / "marking.html"
                                           : std::filesystem::path(wishes.page);
    refuse_source(page, {wishes.file}, "the page");
    if (page.has_parent_path() && !std::filesystem::is_directory(page.parent_path()))
        throw Error("there is no such folder", page.parent_path().string(), "make it first, or choose another");
    if (!is_page(page)) refuse_existing(page, wishes.force);
    const auto reading = survey::read_survey(text, wishes.file);
    const auto telling = [&](const char* what) {
        return [&terminal, what](std::size_t done, std::size_t all) { terminal.progress(what, done, all); };
    };
    const auto store = common.store();
    const marking::Made made = marking::make(
        *reading.survey, trade,
        {text, page, common.threads(), telling("looking at photos"), telling("making small pictures"), store.get()});
    for (const std::string& file : made.unreadable)
        terminal.note("remark: " + shown(file) + " could not be read; `rigdeed check` says why");
    for (const marking::Copy& copy : made.copies) {
        const std::filesystem::path path = page.parent_path() / copy.path;
        make_folders(path.parent_path());
        write_file(path, as_text(*copy.jpeg));
    }
    write_file(page, made.html);
    terminal.result(page.string());
    terminal.note(counted(made.photos, "photo") + " in it; open it in a browser, save there, then: rigdeed mark " +
                  wishes.file + " --take FILE");
    return ExitCode::done;
}

}  // namespace

void add_mark(CLI::App& app, Common& common, ExitCode& code) {
    auto wishes = std::make_shared<MarkWishes>();
    CLI::App* command = app.add_subcommand(
        "mark", "A page to look through the photos, pair, circle and measure; and taking in what it saved");
    command->add_option("SURVEY", wishes->file, "Survey file")->required()->type_name("FILE");
    auto* take_option = command->add_option("--take", wishes->take, "Take in files that the page saved, in this order")
                            ->type_name("FILE");
    auto* page_option =
        command->add_option("-o,--output", wishes->page, "The page; by default marking.html beside the survey")
            ->type_name("HTML")
            ->excludes(take_option);
    command->add_flag("--force", wishes->force, "Overwrite a file that is no such page")->needs(page_option);
    add_language(*command, wishes->language, "page");
    command->add_flag("--dry-run", wishes->dry_run, "Print the changes, write nothing")->needs(take_option);
    command
        ->add_flag(
            "--part", wishes->part,
            "Take what nothing has overtaken, even where the survey no longer says what the page knew of the rest")
        ->needs(take_option);
    command->callback(
        [wishes, &common, &code] { code = wishes->take.empty() ? make_page(*wishes, common) : take(*wishes, common); });
}

}  // namespace rigdeed::command
