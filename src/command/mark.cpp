#include <CLI/CLI.hpp>

#include <memory>

#include "base/file.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "crypto/digest.hpp"
#include "marks/take.hpp"
#include "pipeline.hpp"
#include "survey/edit.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed::command {
namespace {

struct MarkWishes {
    std::string file;
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

}  // namespace

void add_mark(CLI::App& app, Common& common, ExitCode& code) {
    auto wishes = std::make_shared<MarkWishes>();
    CLI::App* command = app.add_subcommand("mark", "Takes what the marking page saved into the survey file");
    command->add_option("SURVEY", wishes->file, "Survey file")->required()->type_name("FILE");
    auto* take_option = command->add_option("--take", wishes->take, "Files that the page saved, in this order")
                            ->type_name("FILE")
                            ->required();
    command->add_flag("--dry-run", wishes->dry_run, "Print the changes, write nothing")->needs(take_option);
    command
        ->add_flag(
            "--part", wishes->part,
            "Take what nothing has overtaken, even where the survey no longer says what the page knew of the rest")
        ->needs(take_option);
    command->callback([wishes, &common, &code] { code = take(*wishes, common); });
}

}  // namespace rigdeed::command
