#include "command/describe.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "command/describe_verdict.hpp"
#include "report/composed.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

std::unique_ptr<Inspected> inspected(const std::string& fixture) {
    return sample::composed(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/" + fixture + "/survey.xml", the_trade())
        .inspected;
}

std::string as_json(const Inspected& inspected) {
    JsonWriter json;
    command::describe(inspected, the_trade(), json);
    return json.text();
}

bool contains(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

crypto::CertificateFacts named(const std::string& name) {
    crypto::CertificateFacts facts;
    facts.name = name;
    return facts;
}

}  // namespace

TEST_CASE("what bars climbing is said with the fitting and why; where nothing does, nothing is said") {
    const auto barred = inspected("gaps/climbed-despite-bar");
    const std::string bar = command::climbing_bar(*barred, the_trade());
    CHECK(bar.starts_with("do not climb: "));
    CHECK(contains(bar, "a qualified rigger deals with it first"));
    for (const assessment::FittingVerdict& one : barred->assessment.fittings)
        CHECK(contains(bar, one.fitting->id + " (") == one.bars_climbing);
    CHECK(contains(command::climbing_bar(*inspected("worked"), the_trade()), "cap-port-strand"));  // aloft
    CHECK(command::climbing_bar(*inspected("complete"), the_trade()).empty());
}

TEST_CASE("the bar is told by mast, and what stands on the mizzen bars the mizzen alone") {
    const auto survey =
        sample::with(sample::replaced(sample::stay("a"), "side", "mast=\"main\" side") +
                         sample::replaced(sample::stay("z"), "side", "mast=\"mizzen\" side"),
                     sample::fitting("main-line", "strand", "a", "mast") +
                         sample::fitting("mizzen-line", "strand", "z", "mast", sample::sign("wire-broken")));
    Inspected inspected;
    inspected.survey = survey;
    inspected.assessment = assessment::assess(inspected.survey, the_trade());
    const std::string bar = command::climbing_bar(inspected, the_trade());
    CHECK(bar.starts_with("do not climb the mizzen mast: mizzen-line"));
    CHECK_FALSE(contains(bar, "main mast"));
}

TEST_CASE("an incomplete survey has no answer for programs, and names its gaps by code") {
    const auto survey = inspected("gaps/photo-missing");
    REQUIRE(!survey->completeness.complete());
    const std::string json = as_json(*survey);
    CHECK(contains(json, R"("complete": false)"));
    CHECK(contains(json, R"("answer": "incomplete")"));
    for (const completeness::Note& gap : survey->completeness.gaps)
        CHECK(contains(json, R"("code": ")" + gap.code + "\""));
}

TEST_CASE("a survey stopped at deck says so to programs, and every fitting's verdict") {
    const auto survey = inspected("stopped");
    const std::string json = as_json(*survey);
    CHECK(contains(json, R"("answer": "stopped-at-deck")"));
    for (const assessment::FittingVerdict& one : survey->assessment.fittings)
        CHECK(contains(json, R"("id": ")" + one.fitting->id + "\""));
}

TEST_CASE("moments are in UTC, and names that anyone may have written in quotes") {
    CHECK(command::utc_text(0) == "1 January 1970, 00:00 UTC");
    CHECK(command::utc_text(1791191640) == "5 October 2026, 09:14 UTC");
    CHECK(command::chain_text({}).empty());
    CHECK(command::chain_text({named("Coast CA"), named("Harbour Root")}) == R"("Coast CA", by "Harbour Root")");
    CHECK(!contains(command::chain_text({named("Coast\x1b[2J")}), "\x1b"));
}

TEST_CASE("the exit code of a report is the worse of its seal, its pages where they are required, and its photos") {
    using verify::Content;
    using verify::Outcome;
    struct Row {
        Outcome outcome;
        Content content;
        bool content_required;
        std::optional<verify::PhotoState> photo;
        ExitCode code;
    };
    for (const Row& row :
         {Row{Outcome::as_issued, Content::agrees, false, {}, ExitCode::done},
          Row{Outcome::as_issued, Content::not_compared, false, {}, ExitCode::done},
          Row{Outcome::as_issued, Content::not_compared, true, {}, ExitCode::signer_unknown},
          Row{Outcome::as_issued, Content::agrees, true, {}, ExitCode::done},
          Row{Outcome::signer_unknown, Content::agrees, true, {}, ExitCode::signer_unknown},
          Row{Outcome::not_as_issued, Content::not_compared, true, {}, ExitCode::not_as_issued},
          Row{Outcome::as_issued, Content::agrees, false, verify::PhotoState::found, ExitCode::done},
          Row{Outcome::as_issued, Content::agrees, false, verify::PhotoState::missing, ExitCode::not_as_issued},
          Row{Outcome::signer_unknown, Content::agrees, false, verify::PhotoState::altered, ExitCode::not_as_issued}}) {
        command::VerifiedReport report;
        report.opened.verdict.outcome = row.outcome;
        report.opened.verdict.content = row.content;
        report.content_required = row.content_required;
        if (row.photo) report.photos = verify::PhotosFinding{{{"A1.jpg", *row.photo, ""}}, {}, ""};
        CHECK(command::exit_code(report) == row.code);
    }
}

TEST_CASE("the limits stand in the JSON: what was held against which, and what follows") {
    std::string json = as_json(*inspected("worked"));
    json.erase(std::remove(json.begin(), json.end(), '\n'), json.end());
    const std::string list = json.substr(json.find("\"limits\": ["));
    const auto row = [&](const std::string& quantity, const std::string& fitting) {
        const auto found = list.find("\"quantity\": \"" + quantity + "\"");
        if (found == std::string::npos) return std::string();
        const auto from = list.rfind('{', found);
        const std::string one = list.substr(from, list.find('}', from) - from + 1);
        CHECK(contains(one, "\"fitting\": \"" + fitting + "\""));
        CHECK(contains(one, "\"source\": \""));
        return one;
    };
    const std::string worn = row("pin-wear", "cap-port-pin");  // 12 mm worn to 10.8: a tenth, and no more
    for (const char* piece : {"\"value\": 10.000000", "\"limit\": \"pin-worn-5\"", "\"bound\": \"most\"",
                              "\"of\": 5.000000", "\"beyond\": true", "\"verdict\": \"rectify\"",
                              "\"bars-climbing\": true", "pin worn by 10 % of its diameter, more than 5 %"})
        CHECK_MESSAGE(contains(worn, piece), worn);
    const std::string bolts = row("bolt-ratio", "cap-port-tang");
    for (const char* piece : {"\"limit\": \"bolts-1\"", "\"bound\": \"least\"", "\"beyond\": true"})
        CHECK_MESSAGE(contains(bolts, piece), bolts);
    const std::string wall = row("wall-bearing", "cap-port-tang");
    for (const char* piece :
         {"\"beyond\": false", "\"verdict\": \"sound\"", "\"bars-climbing\": false", "\"words\": \"\""})
        CHECK_MESSAGE(contains(wall, piece), wall);
    CHECK(row("dent-depth", "").empty());  // not measured: not listed
}
