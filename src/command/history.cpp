#include <CLI/CLI.hpp>

#include <memory>

#include "base/date.hpp"
#include "base/file.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "reopen/reopen.hpp"
#include "years/chain.hpp"

namespace rigdeed::command {
namespace {

/// A file of the folder that is no sealed paper of ours, or no longer.
struct Other {
    std::string file;
    std::string why;
    ExitCode code = ExitCode::done;  ///< of one that is not as issued, or could not be examined
};

struct Found {
    std::vector<years::Paper> papers;
    std::vector<Other> others;
};

years::Paper paper_of(const std::string& file, const reopen::SealedReport& report) {
    years::Paper paper;
    paper.file = file;
    paper.sha256 = report.sha256;
    paper.follow_up = report.follow_up;
    paper.number = report.said->number;
    paper.yacht = report.said->yacht;
    paper.hin = report.said->hin;
    paper.on = report.said->attended;
    paper.sealed_at = report.verdict.claims.sealed_at.value_or(0);
    paper.signer = report.verdict.signer->name;
    paper.fingerprint = report.verdict.signer->fingerprint;
    paper.says = report.reported ? report.reported : report.judged;
    paper.since = report.since;
    paper.replaces = report.replaces;
    paper.works = report.works;
    paper.look_again = report.look_again;
    return paper;
}

Found read_folder(const std::string& path, const Terminal& terminal) {
    Found found;
    const Folder folder(path);
    const std::vector<std::string> files = folder.files();
    for (std::size_t i = 0; i < files.size(); ++i) {
        terminal.progress("reading papers", i, files.size());
        if (!lower(files[i]).ends_with(".pdf")) continue;
        const reopen::SealedReport report = reopen::open_report(std::filesystem::path(path) / files[i], {});
        if (report.verdict.intact() && report.said) found.papers.push_back(paper_of(files[i], report));
        else if (report.verdict.intact()) found.others.push_back({files[i], report.not_judged, ExitCode::done});
        else found.others.push_back({files[i], report.verdict.summary, report.verdict.exit_code()});
    }
    terminal.progress("reading papers", files.size(), files.size());
    return found;
}

std::string answer_words(const years::Paper& paper, const trade::Trade& trade) {
    if (!paper.says) return "its answer stands on its first page";
    const std::string key = "answer." + paper.says->answer;
    return (trade.wording.has(key) ? trade.wording(key) : shown(paper.says->answer)) +
           (paper.says->do_not_climb ? "; do not climb" : "");
}

void describe(const years::Chain& chain, const trade::Trade& trade, const Terminal& terminal) {
    terminal.result(shown(chain.yacht) + (chain.hin.empty() ? "" : ", " + shown(chain.hin)));
    for (const years::Paper& paper : chain.papers) {
        std::string line = "  " + local_from_seconds(paper.sealed_at).date.iso() + "  " +
                           (paper.follow_up ? "works " : "survey ") + shown(paper.number) + " by " +
                           shown(paper.signer) + ", " + shown(paper.file);
        for (const record::Earlier& earlier : paper.since)
            line += (paper.follow_up ? "; answers " : "; since ") + shown(earlier.number);
        if (paper.replaces) line += "; replaces " + shown(paper.replaces->number);
        terminal.result(line);
        terminal.result("    " + answer_words(paper, trade));
    }
    if (chain.last) {
        const years::Paper& report = chain.papers[*chain.last];
        terminal.result("  open of survey " + shown(report.number) + ": " + counted(chain.open.size(), "item"));
        for (const record::Work& work : chain.open)
            terminal.result("    " + std::to_string(work.item) + " (" + survey::name_of(work.verdict) +
                            "): " + shown(work.words));
        if (report.look_again) terminal.result("  looked at again by " + report.look_again->text());
    }
    for (const std::string& remark : chain.remarks) terminal.result("  remark: " + remark);
}

void describe(const years::Chain& chain, JsonWriter& json) {
    json.begin_object().field("yacht", chain.yacht).field("hin", chain.hin).key("papers").begin_array();
    for (const years::Paper& paper : chain.papers) {
        json.begin_object()
            .field("file", paper.file)
            .field("kind", paper.follow_up ? "works-done" : "survey")
            .field("number", paper.number)
            .field("on", paper.on.iso())
            .field("issued", local_from_seconds(paper.sealed_at).date.iso())
            .field("signer", paper.signer)
            .field("fingerprint", paper.fingerprint.hex())
            .field("sha256", paper.sha256.hex())
            .field("answer", paper.says ? paper.says->answer : "")
            .field("replaces", paper.replaces ? paper.replaces->sha256.hex() : "")
            .key("since")
            .begin_array();
        for (const record::Earlier& earlier : paper.since) json.value(earlier.sha256.hex());
        json.end().end();
    }
    json.end().field("stands", chain.last ? chain.papers[*chain.last].number : "").key("open").begin_array();
    for (const record::Work& work : chain.open)
        json.begin_object()
            .field("item", static_cast<std::int64_t>(work.item))
            .field("verdict", survey::name_of(work.verdict))
            .field("words", work.words)
            .end();
    const bool dated = chain.last && chain.papers[*chain.last].look_again;
    json.end()
        .field("look_again", dated ? chain.papers[*chain.last].look_again->iso() : "")
        .key("remarks")
        .begin_array();
    for (const std::string& remark : chain.remarks) json.value(remark);
    json.end().end();
}

ExitCode history(const std::string& folder, const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    Found found = read_folder(folder, terminal);
    ExitCode code = ExitCode::done;
    for (const Other& one : found.others) code = worse(code, one.code);
    const std::vector<years::Chain> chains = years::chains(std::move(found.papers));
    if (common.json) {
        JsonWriter json;
        json.begin_object().key("yachts").begin_array();
        for (const years::Chain& chain : chains) describe(chain, json);
        json.end().key("others").begin_array();
        for (const Other& one : found.others) json.begin_object().field("file", one.file).field("why", one.why).end();
        json.end().end();
        terminal.raw_result(json.text());
    } else {
        for (const years::Chain& chain : chains) describe(chain, trade, terminal);
        for (const Other& one : found.others)
            terminal.result(shown(one.file) + ": " +
                            (one.code == ExitCode::not_as_issued
                                 ? terminal.emphasised("NOT A PAPER AS ISSUED", Terminal::Emphasis::bad)
                             : one.code != ExitCode::done ? "COULD NOT BE EXAMINED"
                                                          : "left out") +
                            ", " + shown(one.why));
        if (chains.empty()) terminal.note("no sealed report in " + folder);
        else terminal.note("that the signers are who you think, rigdeed verify --fingerprint says of each");
    }
    return code;
}

}  // namespace

void add_history(CLI::App& app, Common& common, ExitCode& code) {
    auto folder = std::make_shared<std::string>();
    CLI::App* command =
        app.add_subcommand("history", "The sealed papers of a yacht in a folder: how they follow, and what is open");
    command->add_option("DIR", *folder, "Folder with sealed reports and follow-ups")->required()->type_name("DIR");
    command->callback([folder, &common, &code] { code = history(*folder, common); });
}

}  // namespace rigdeed::command
