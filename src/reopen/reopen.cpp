#include "reopen/reopen.hpp"

#include "base/file.hpp"
#include "reopen/facts.hpp"
#include "verify/apart.hpp"
#include "verify/sums.hpp"

namespace rigdeed::reopen {

std::string_view SealedReport::carried(std::string_view name) const {
    for (const verify::CarriedFile& one : verdict.files)
        if (one.name == name) return as_text(one.bytes);
    return {};
}

namespace {

SealedReport open_summed(std::string_view bytes, const Opening& opening, const verify::Sums* sums) {
    SealedReport report;
    const auto further = [&](verify::Verdict& verdict) {
        SealedReport found;
        found.verdict = std::move(verdict);
        if (found.verdict.intact()) examine(bytes, opening, found);
        if (!found.verdict.intact() && opening.carried_unverified) found.verdict.files = verify::embedded_files(bytes);
        verdict = std::move(found.verdict);
        return write_facts(found);
    };
    ChildLimits limits;
    limits.threads = true;  // it hashes pictures beside all else
    verify::Apart apart = verify::verify_apart(bytes, opening.trust, further, limits, sums);
    report.verdict = std::move(apart.verdict);
    report.sha256 = apart.sha256;
    if (report.verdict.outcome != verify::Outcome::not_examined && !read_facts(apart.more, report)) {
        report = {};
        report.verdict.outcome = verify::Outcome::not_examined;
        report.verdict.summary = "the file could not be examined: what was read of it makes no sense";
    }
    return report;
}

}  // namespace

SealedReport open_bytes(std::string_view bytes, const Opening& opening) { return open_summed(bytes, opening, nullptr); }

SealedReport open_report(const std::filesystem::path& file, const Opening& opening) {
    verify::Sums sums;
    const Bytes bytes = read_file(file, verify::largest_report, [&](std::string_view piece) { sums.add(piece); });
    sums.end(as_text(bytes));
    SealedReport report = open_summed(as_text(bytes), opening, &sums);
    report.file = file.string();
    return report;
}

}  // namespace rigdeed::reopen
