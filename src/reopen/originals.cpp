// Photos and pictures are taken apart in the children alone; here only digests of whole files are made.
#include "reopen/originals.hpp"

#include <algorithm>
#include <map>

#include "base/archive.hpp"
#include "base/build.hpp"
#include "base/parallel.hpp"
#include "base/process.hpp"
#include "crypto/digest.hpp"
#include "evidence/copies.hpp"
#include "evidence/examine.hpp"
#include "evidence/heif.hpp"
#include "evidence/print.hpp"
#include "evidence/scale.hpp"
#include "verify/compare.hpp"

namespace rigdeed::reopen {
namespace {

constexpr std::uint64_t largest_photo = 1 << 30;
constexpr std::string_view went = "its original changed while it was read, or cannot be read";

struct Job {
    const PrintedPhoto* printed = nullptr;
    const std::string* path = nullptr;
    Bytes bytes;
    CopyFinding finding;
};

bool same_or_alike(const Digest& wanted, const evidence::PrintCopy& made, std::string_view report, bool& exactly) {
    if (!made.jpeg) return false;
    if (crypto::sha256(*made.jpeg) == wanted) return true;
    exactly = false;
    const auto picture = verify::picture(report, wanted);
    return picture && evidence::are_alike(to_bytes(*picture), *made.jpeg);
}

// In the child.
CopyState compare(const Job& job, std::string_view report, bool same_copies) {
    const PrintedPhoto& printed = *job.printed;
    evidence::Photo photo;
    photo.name = printed.name;
    photo.sha256 = printed.original;
    photo.size = job.bytes.size();
    const evidence::Wanted wanted{printed.long_side, printed.mark ? &*printed.mark : nullptr, printed.wanted, true,
                                  false};
    const evidence::JpegStructure structure = evidence::examine(job.bytes, photo);
    evidence::CopiesInMemory none;
    if (evidence::is_heif(job.bytes)) evidence::take_heif_apart(job.bytes, wanted, photo);
    else if (photo.usable()) evidence::print(photo, wanted, job.bytes, structure, none);
    if (!photo.usable() || std::max(photo.print.width, photo.print.height) != printed.long_side)
        return CopyState::not_compared;
    bool exactly = true;
    if (!same_or_alike(printed.print, photo.print, report, exactly)) return CopyState::differs;
    if (printed.mark && !same_or_alike(printed.detail, photo.detail, report, exactly)) return CopyState::differs;
    if (exactly) return CopyState::same;
    return same_copies ? CopyState::differs : CopyState::alike;
}

/// Whether an earlier run made the same pictures of the same file.
bool was_made_so(const PrintedPhoto& printed, evidence::CopyStore& store) {
    const auto is_it = [](const std::optional<evidence::Copy>& copy, const Digest& wanted) {
        return copy && copy->picture.jpeg && crypto::sha256(*copy->picture.jpeg) == wanted;
    };
    const std::string build(build_digest());
    return is_it(store.find({printed.original, printed.long_side, std::nullopt, build}), printed.print) &&
           (!printed.mark ||
            is_it(store.find({printed.original, printed.wanted, printed.mark, build}), printed.detail));
}

void compare_all(std::vector<Job*>& jobs, std::string_view report, bool same_copies, unsigned children) {
    const std::size_t count = std::min<std::size_t>(std::max(children, 1U), jobs.size());
    ChildLimits limits;
    limits.threads =
        std::any_of(jobs.begin(), jobs.end(), [](const Job* job) { return evidence::is_heif(job->bytes); });
    const auto results = in_children(
        count,
        [&](std::size_t child) {
            ArchiveWriter writer;
            for (std::size_t i = child; i < jobs.size(); i += count) {
                CopyState state = compare(*jobs[i], report, same_copies);
                writer.whole(state, any_number);
            }
            return std::move(writer.bytes);
        },
        limits);
    for (std::size_t child = 0; child < count; ++child) {
        ArchiveReader reader(results[child].bytes);
        for (std::size_t i = child; i < jobs.size(); i += count) {
            if (results[child].ended_well)
                reader.whole(jobs[i]->finding.state, static_cast<std::uint64_t>(CopyState::not_compared));
            if (!results[child].ended_well || reader.failed)
                jobs[i]->finding = {jobs[i]->printed->name, CopyState::not_compared,
                                    "it could not be made anew: " + results[child].fault};
        }
    }
}

}  // namespace

std::vector<CopyFinding> compare_copies(const SealedReport& report, std::string_view file, const Folder& folder,
                                        const std::vector<Original>& originals, unsigned jobs,
                                        evidence::CopyStore* store) {
    evidence::prepare_heif();
    std::map<Digest, const std::string*> paths;
    for (const Original& original : originals) paths.emplace(original.sha256, &original.path);
    std::vector<Job> all;
    for (const PrintedPhoto& printed : report.printed)
        if (const auto at = paths.find(printed.original); at != paths.end())
            all.push_back({&printed, at->second, {}, {printed.name, CopyState::not_compared, {}}});
    // As many at a time as memory may hold.
    const std::size_t batch = std::max<std::size_t>(jobs, 1) * 8;
    for (std::size_t begin = 0; begin < all.size(); begin += batch) {
        const std::size_t end = std::min(begin + batch, all.size());
        in_parallel(end - begin, jobs, [&](std::size_t i) {
            Job& job = all[begin + i];
            if (store != nullptr && report.same_copies && was_made_so(*job.printed, *store)) {
                job.finding.state = CopyState::same;
                return;
            }
            Folder::Reading reading = folder.read(*job.path, largest_photo);
            if (reading.outcome == Folder::Outcome::read && crypto::sha256(reading.bytes) == job.printed->original)
                job.bytes = std::move(reading.bytes);
            else job.finding.remark = went;
        });
        std::vector<Job*> held;
        for (std::size_t i = begin; i < end; ++i)
            if (!all[i].bytes.empty()) held.push_back(&all[i]);
        if (!held.empty()) compare_all(held, file, report.same_copies, jobs);
        for (std::size_t i = begin; i < end; ++i) all[i].bytes = {};
    }
    std::vector<CopyFinding> findings;
    for (Job& job : all) {
        if (job.finding.state == CopyState::not_compared && job.finding.remark.empty())
            job.finding.remark = "it cannot be made anew in its size here";
        findings.push_back(std::move(job.finding));
    }
    return findings;
}

}  // namespace rigdeed::reopen
