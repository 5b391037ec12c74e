#include "command/sealed.hpp"

#include "base/file.hpp"
#include "crypto/digest.hpp"
#include "survey/read_survey.hpp"
#include "verify/apart.hpp"

namespace rigdeed::command {

std::string_view carried(const verify::Verdict& verdict, std::string_view name) {
    for (const verify::CarriedFile& one : verdict.files)
        if (one.name == name) return as_text(one.bytes);
    return {};
}

SealedReport read_sealed(const std::string& file) {
    constexpr std::uint64_t largest_report = 2'000'000'000;
    const Bytes bytes = read_file(file, largest_report);
    SealedReport report{verify::verify_apart(as_text(bytes), {}), crypto::sha256(bytes), {}};
    const auto [survey, problems] = survey::read_survey(std::string(carried(report.verdict, "survey.xml")), file);
    if (survey && problems.empty()) report.number = survey->number;
    return report;
}

}  // namespace rigdeed::command
