#include "command/describe_earlier.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "years/since.hpp"

namespace rigdeed::command {
namespace {

using State = EarlierFinding::State;
using Emphasis = Terminal::Emphasis;

const char* name_of(State state) {
    switch (state) {
        case State::not_at_hand: return "not-at-hand";
        case State::same: return "same";
        case State::differs: return "differs";
    }
    return "";
}

/// Compared as text: what a stranger wrote is not taken apart here.
bool carries(const reopen::SealedReport& report, std::size_t index, const reopen::SealedReport& old) {
    years::CarriedReport said{std::string(old.carried("survey.xml")), std::string(old.carried("issue.xml")), {}};
    if (report.follow_up) said.own_templates = old.carried("templates.xml");
    const std::string wanted = years::written(said);
    const std::string_view before = report.carried("before.xml");
    std::size_t at = 0;
    for (std::size_t line = 0; line < index + years::lines_before_reports && at != std::string_view::npos; ++line)
        at = before.find('\n', at) == std::string_view::npos ? std::string_view::npos : before.find('\n', at) + 1;
    return at != std::string_view::npos && before.substr(at).starts_with(wanted);
}

}  // namespace

bool EarlierReports::fault() const {
    return !strangers.empty() || std::any_of(papers.begin(), papers.end(),
                                             [](const EarlierFinding& one) { return one.state == State::differs; });
}

EarlierReports find_earlier(const reopen::SealedReport& report, const std::vector<std::string>& files) {
    EarlierReports earlier;
    for (const record::Earlier& paper : report.since) earlier.papers.push_back({paper, State::not_at_hand, {}});
    for (const std::string& file : files) {
        reopen::Opening opening;
        opening.compare = false;
        const reopen::SealedReport old = reopen::open_report(file, opening);
        const auto named = std::find_if(earlier.papers.begin(), earlier.papers.end(),
                                        [&](const EarlierFinding& one) { return one.paper.sha256 == old.sha256; });
        if (named == earlier.papers.end()) {
            earlier.strangers.push_back(file + (old.verdict.intact() ? "" : ", which is not as issued,"));
            continue;
        }
        named->file = file;
        const auto index = static_cast<std::size_t>(named - earlier.papers.begin());
        named->state = carries(report, index, old) ? State::same : State::differs;
    }
    return earlier;
}

void describe(const EarlierReports& earlier, bool follow_up, const Terminal& terminal) {
    for (const EarlierFinding& one : earlier.papers) {
        terminal.result(std::string(follow_up ? "  answers survey " : "  compared with survey ") +
                        shown(one.paper.number) + ", issued on " + one.paper.issued.text() + " by " +
                        shown(one.paper.signer) + ", SHA-256 " + one.paper.sha256.hex());
        if (one.state == State::same)
            terminal.result("    " + terminal.emphasised("that is " + shown(one.file) +
                                                             ", byte for byte, and what it says is what is carried",
                                                         Emphasis::good));
        if (one.state == State::differs)
            terminal.result("    " + terminal.emphasised("that is " + shown(one.file) +
                                                             ", but the report carries ANOTHER SURVEY OR RECORD of it",
                                                         Emphasis::bad));
        if (one.state == State::not_at_hand)
            terminal.result("    that it said so, only that report itself can show: " +
                            std::string(follow_up ? "--report FILE" : "--since FILE"));
    }
    for (const std::string& file : earlier.strangers)
        terminal.result(
            "  " + terminal.emphasised(shown(file) + (follow_up ? " is NOT the report that it answers"
                                                                : " is NOT one of the reports that it compares with"),
                                       Emphasis::bad));
}

void describe(const EarlierReports& earlier, JsonWriter& json) {
    json.begin_array();
    for (const EarlierFinding& one : earlier.papers)
        json.begin_object()
            .field("number", one.paper.number)
            .field("issued", one.paper.issued.iso())
            .field("sha256", one.paper.sha256.hex())
            .field("signer", one.paper.signer)
            .field("fingerprint", one.paper.fingerprint.hex())
            .field("state", name_of(one.state))
            .field("file", one.file)
            .end();
    for (const std::string& file : earlier.strangers)
        json.begin_object().field("state", "stranger").field("file", file).end();
    json.end();
}

}  // namespace rigdeed::command
