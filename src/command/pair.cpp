#include <CLI/CLI.hpp>

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>

#include "base/error.hpp"
#include "base/file.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "command/options.hpp"
#include "command/output.hpp"
#include "pairing/survey_pairing.hpp"
#include "pipeline.hpp"
#include "survey/edit.hpp"
#include "survey/open_times.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed::command {
namespace {

using pairing::Paired;
using pairing::Told;
using pairing::View;
using pairing::Way;

struct PairWishes {
    std::string file;
    bool write = false;
    std::string sheet, paper, language;
    bool force = false;
};

const char* name_of(View view) { return view == View::far ? "far" : view == View::close ? "close" : "other"; }
const char* name_of(Way pass) { return pass == Way::up ? "up" : "down"; }

std::string time_text(const Told& told) {
    return told.at ? TimeOfDay{static_cast<int>(*told.at)}.hh_mm_ss() : std::string();
}

std::string json_of(const Paired& paired) {
    JsonWriter json;
    json.begin_array();
    for (const Told& told : paired.photos) {
        json.begin_object().field("photo", told.photo).key("fittings").begin_array();
        for (const std::string& fitting : told.fittings) json.value(fitting);
        json.end();
        json.field("pass", told.view == View::other ? "" : name_of(told.pass)).field("view", name_of(told.view));
        json.field("at", time_text(told)).field("sure", told.sure).field("why", told.why).end();
    }
    json.end();
    return json.text();
}

std::string what(const Told& told) {
    return told.photo + (told.at ? ", " + time_text(told) : std::string()) + ": " +
           (told.view == View::far ? "far photo of " : "close photo of ") + join(told.fittings, ", ") + ", going " +
           name_of(told.pass);
}

void describe(const Paired& paired, const Terminal& terminal) {
    const auto count = [&](auto fits) {
        return static_cast<std::size_t>(std::count_if(paired.photos.begin(), paired.photos.end(), fits));
    };
    const std::size_t named = count([](const Told& one) { return one.named; });
    const std::size_t codes = count([](const Told& one) { return !one.named && !one.of_place.empty(); });
    const std::size_t sure = count([](const Told& one) { return one.sure && !one.named && one.of_place.empty(); });
    terminal.result(counted(paired.photos.size(), "photo") + ": " + std::to_string(named) + " named in the survey, " +
                    std::to_string(codes) + " with the code of a place, " + std::to_string(sure) + " sure, " +
                    std::to_string(paired.photos.size() - named - codes - sure) + " in doubt");
    if (paired.foreign_codes > 0)
        terminal.note("remark: " + counted(paired.foreign_codes, "code") +
                      " of another survey's sheet, or of this one before it had its number; left alone");
    for (const survey::CameraClock& camera : paired.clocks)
        terminal.note("remark: by its photos the clock of camera " + in_quotes(camera.name) +
                      " was off; write <camera name=" + in_quotes(camera.name) + " clock=\"" +
                      clock_offset_text(camera.clock) + "\"/> into <photos>");
    for (const std::string& file : paired.unreadable)
        terminal.note("remark: " + shown(file) + " could not be read; `rigdeed check` says why");
    for (const bool is_sure : {true, false}) {
        const auto belongs = [&](const Told& one) {
            return !one.named && one.of_place.empty() && one.sure == is_sure && one.view != View::other;
        };
        if (count(belongs) == 0) continue;
        terminal.result(is_sure ? "sure:" : "in doubt:");
        for (const Told& told : paired.photos)
            if (belongs(told)) terminal.result("  " + what(told) + (is_sure ? "" : " (" + told.why + ")"));
    }
    const auto loose = [](const Told& one) { return !one.named && one.of_place.empty() && one.view == View::other; };
    if (count(loose) > 0) {
        std::vector<std::string> names;
        for (const Told& told : paired.photos)
            if (loose(told)) names.push_back(told.photo);
        terminal.result("of nothing in turn, or spare: " + join(names, ", "));
    }
    for (const std::size_t question : paired.questions) {
        const Told& told = paired.photos[question];
        terminal.result("is " + told.photo + " the close photo of " + told.fittings.front() + ", going " +
                        name_of(told.pass) + "? Write it into the survey, or the right one: much hangs on it");
    }
}

/// Where the sheet goes; what is there stays unless it is meant to go.
std::filesystem::path sheet_file(const PairWishes& wishes) {
    std::filesystem::path output = wishes.sheet;
    if (std::filesystem::is_directory(output)) output /= "contact-sheet.pdf";
    refuse_source(output, {wishes.file}, "the sheet");
    refuse_existing(output, wishes.force);
    if (output.has_parent_path() && !std::filesystem::is_directory(output.parent_path()))
        throw Error("there is no such folder", output.parent_path().string(), "make it first, or choose another");
    return output;
}

/// False if there is something in the survey file that cannot be printed.
bool write_sheet(const std::filesystem::path& output, const PairWishes& wishes, const Pairing& pairing,
                 const Common& common, evidence::CopyStore* store) {
    const Terminal terminal = common.terminal();
    std::vector<std::filesystem::path> photos;
    const std::filesystem::path folder =
        std::filesystem::path(wishes.file).parent_path() / pairing.survey.photos.folder;
    for (const evidence::Looked& one : pairing.looked) photos.push_back(folder / one.photo.file);
    refuse_source(output, photos, "the sheet");
    trade::Trade trade = common.trade();
    trade = common.trade(wishes.language.empty() ? trade.letterhead.language : wishes.language);
    const PaperSize paper = read_paper(wishes.paper).value_or(trade.letterhead.paper);
    const auto progress = [&](std::size_t done, std::size_t all) {
        terminal.progress("making small pictures", done, all);
    };
    const ContactSheet sheet =
        contact_sheet(pairing, trade, paper, issue_moment({}), {common.threads(), progress, store});
    for (const Problem& problem : sheet.problems) terminal.problem(problem);
    if (!sheet.problems.empty()) return false;
    write_file(output, sheet.pdf);
    terminal.note(output.string() + ": " + counted(sheet.pages, "page"));
    return true;
}

ExitCode pair(const PairWishes& wishes, const Common& common) {
    const Terminal terminal = common.terminal();
    const std::filesystem::path sheet = wishes.sheet.empty() ? std::filesystem::path() : sheet_file(wishes);
    const trade::Trade trade = common.trade();
    const Bytes bytes = read_file(wishes.file, survey::largest_survey);
    const std::string_view text = as_text(bytes);
    const survey::TimesPutIn put_in = survey::with_times_put_in(text, wishes.file);
    const auto [survey, problems] = survey::read_survey(put_in.text, wishes.file);
    for (const Problem& problem : problems) terminal.problem(problem);
    if (!survey) {
        terminal.note(counted(problems.size(), "problem") + " in " + wishes.file + "; nothing was done");
        return ExitCode::could_not_run;
    }
    const auto store = common.store();
    const auto progress = [&](std::size_t done, std::size_t all) { terminal.progress("looking at photos", done, all); };
    const auto looked = evidence::look_through(*survey, common.threads(), progress, store.get());
    const Paired paired = pairing::pair_survey(*survey, looked, put_in.open);
    if (common.json) terminal.raw_result(json_of(paired));
    else describe(paired, terminal);
    if (!sheet.empty() && !write_sheet(sheet, wishes, {*survey, put_in.text, looked, paired}, common, store.get()))
        return ExitCode::could_not_run;
    if (!wishes.write) return ExitCode::done;
    const xml::Reading read = xml::read(text, wishes.file);
    const auto edits = pairing::edits_for(paired, text, *read.root, trade.wording("pair.row"));
    const survey::Edited edited = survey::edit_with_times_open(text, wishes.file, edits);
    if (!edited.text) {
        for (const Problem& problem : edited.problems) terminal.problem(problem);
        return ExitCode::could_not_run;
    }
    if (*edited.text == text) {
        terminal.note("nothing to write: " + wishes.file + " says all of it already");
        return ExitCode::done;
    }
    survey::write_edited(wishes.file, text, *edited.text);
    terminal.note(wishes.file + ": the sure ones are written; those in doubt stand there as comments");
    return ExitCode::done;
}

}  // namespace

void add_pair(CLI::App& app, Common& common, ExitCode& code) {
    auto wishes = std::make_shared<PairWishes>();
    CLI::App* command = app.add_subcommand("pair", "Which photo shows which fitting, on which pass");
    command->add_option("SURVEY", wishes->file, "Survey file; its photo folder is looked through")
        ->required()
        ->type_name("FILE");
    command->add_flag("--write", wishes->write,
                      "Write what is sure into the survey file, what is in doubt as comments; all else stays as it is");
    auto* sheet = command
                      ->add_option("--sheet", wishes->sheet,
                                   "A contact sheet of the result: each fitting with its photos, small, by name")
                      ->type_name("PDF|DIR");
    command->add_flag("--force", wishes->force, "Overwrite a file of that name, unless it is a sealed report")
        ->needs(sheet);
    add_paper(*command, wishes->paper, "sheet");
    add_language(*command, wishes->language, "sheet");
    command->callback([wishes, &common, &code] { code = pair(*wishes, common); });
}

}  // namespace rigdeed::command
