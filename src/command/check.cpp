#include <CLI/CLI.hpp>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "base/date.hpp"
#include "base/text.hpp"
#include "base/watch.hpp"
#include "command/describe.hpp"
#include "command/works.hpp"

namespace rigdeed::command {
namespace {

class Checker {
 public:
    Checker(const std::vector<std::string>& files, const Common& common)
        : files_(files), common_(common), terminal_(common.terminal()), trade_(common.trade()), store_(common.store()) {
        options_.jobs = common.threads();
        options_.units = common.unit_system();
        options_.on = local_from_seconds(issue_moment({})).date;
        options_.copies = store_.get();
        options_.sharpness = true;
        options_.progress = [this](std::size_t done, std::size_t all) {
            terminal_.progress("reading photos", done, all);
        };
    }

    ExitCode run() {
        ExitCode code = ExitCode::done;
        JsonWriter json;
        json.begin_array();
        for (const std::string& file : files_) {
            code = worse(code, check(file, json));
            if (!common_.json && &file != &files_.back()) terminal_.result("");
        }
        json.end();
        if (common_.json) terminal_.raw_result(json.text());
        return code;
    }

    /// Until it is interrupted. A file that is gone or wrong for a moment is said, and waited for.
    void run_at_every_change() {
        for (;;) {
            Watch watch;  // before the check: what changes meanwhile counts
            for (const std::string& file : files_) watch.add_file(file);
            for (const std::filesystem::path& folder : folders_) watch.add_folder(folder);
            folders_.clear();
            try {
                (void)run();
            } catch (const Error& error) { terminal_.error(error); }
            for (const std::filesystem::path& folder : folders_) watch.add_folder(folder);
            terminal_.finish();
            terminal_.note("waiting for changes; Ctrl-C ends");
            const std::vector<std::string> changed = watch.wait();
            constexpr std::size_t most_named = 3;
            const std::vector<std::string> first(
                changed.begin(), changed.begin() + static_cast<std::ptrdiff_t>(std::min(changed.size(), most_named)));
            terminal_.result("");
            terminal_.result(
                "changed: " + shown(join(first, ", ")) +
                (changed.size() > most_named ? " and " + std::to_string(changed.size() - most_named) + " more" : ""));
            terminal_.finish();
        }
    }

 private:
    ExitCode check(const std::string& file, JsonWriter& json) {
        if (const auto works = works_text(file)) return check_works(file, *works, json);
        const auto inspected = inspect_or_explain(file, trade_, options_, terminal_);
        if (!inspected) return ExitCode::could_not_run;
        folders_.push_back(std::filesystem::path(file).parent_path() / inspected->survey.photos.folder);
        if (common_.json) describe(*inspected, trade_, json);
        else describe(*inspected, trade_, terminal_);
        return inspected->completeness.complete() ? ExitCode::done : ExitCode::incomplete;
    }

    ExitCode check_works(const std::string& file, const std::string& text, JsonWriter& json) {
        const auto inspected = works_or_explain(file, text, options_, issue_moment({}), terminal_);
        if (!inspected) return ExitCode::could_not_run;
        folders_.push_back(std::filesystem::path(file).parent_path() / inspected->works.photos);
        if (common_.json) describe(*inspected, json);
        else describe(*inspected, terminal_);
        return inspected->conclusion.complete() ? ExitCode::done : ExitCode::incomplete;
    }

    const std::vector<std::string>& files_;
    const Common& common_;
    Terminal terminal_;
    trade::Trade trade_;
    std::unique_ptr<evidence::CopyStore> store_;
    InspectOptions options_;
    std::vector<std::filesystem::path> folders_;  ///< with photos, of the surveys that could be read
};

struct CheckWishes {
    std::vector<std::string> files;
    bool watch = false;
};

ExitCode check(const CheckWishes& wishes, const Common& common) {
    if (wishes.watch && common.json) throw Error("--watch goes on without end: with --json nothing would be written");
    Checker checker(wishes.files, common);
    if (wishes.watch) checker.run_at_every_change();
    return checker.run();
}

}  // namespace

void add_check(CLI::App& app, Common& common, ExitCode& code) {
    auto wishes = std::make_shared<CheckWishes>();
    CLI::App* command = app.add_subcommand("check", "What is missing in a survey, and what was found");
    command->add_option("SURVEY", wishes->files, "Survey files, or works files")->required()->type_name("FILE");
    command->add_flag("--watch", wishes->watch,
                      "Go on: check again whenever the survey file or a photo changes, until Ctrl-C");
    command->callback([wishes, &common, &code] { code = check(*wishes, common); });
}

}  // namespace rigdeed::command
