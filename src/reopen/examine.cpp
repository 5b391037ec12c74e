#include <algorithm>
#include <array>
#include <future>
#include <system_error>

#include "base/build.hpp"
#include "base/error.hpp"
#include "base/hollow_jpeg.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "follow_up.hpp"
#include "pipeline.hpp"
#include "reopen/facts.hpp"
#include "verify/compare.hpp"

namespace rigdeed::reopen {
namespace {

// What a report carries, and what was read of it so far.
struct Case {
    std::string_view bytes;
    Carried carried;
    std::optional<record::Reading> record;
    SealedReport& report;
    std::future<std::vector<Digest>> pictures;  ///< of what its pages show
};

// Beside all else, where a thread is to be had: they are nearly all of the file.
std::future<std::vector<Digest>> digests_of(const std::vector<std::string_view>& pictures) {
    const auto work = [&pictures] {
        std::vector<Digest> digests;
        for (const std::string_view picture : pictures) digests.push_back(crypto::sha256(picture));
        return digests;
    };
    try {
        return std::async(std::launch::async, work);
    } catch (const std::system_error&) { return std::async(std::launch::deferred, work); }
}

// "0.2.0" of a record's program="rigdeed 0.2.0, …"; empty if it names no version.
std::vector<int> version_in(std::string_view record) {
    const std::string_view start = " program=\"rigdeed ";
    const auto at = record.find(start);
    if (at == std::string_view::npos) return {};
    std::vector<int> parts;
    const std::string_view text = record.substr(at + start.size());
    for (const std::string& part : split(text.substr(0, text.find_first_not_of("0123456789.")), '.'))
        parts.push_back(read_digits(part).value_or(0));
    return parts;
}

const std::vector<int> ours = version_in(" program=\"rigdeed " + std::string(version()));

// Since 0.2.0 each record says all of this; before, none of it.
bool says_what_its_version_says(const record::Made& made, const std::vector<int>& by) {
    const std::array says{made.build.has_value(),     !made.pictures.empty(),     made.date_typed.has_value(),
                          made.timestamp.has_value(), made.concluded.has_value(), made.works.has_value()};
    return std::all_of(says.begin(), says.end(), [&](bool one) { return one == (by >= std::vector{0, 2, 0}); });
}

// A record that is not in the very form in which records are written was not written by rigdeed. Reports of a version
// that does not exist yet may carry records of a form that is not known here.
std::string record_fault(const Case& the) {
    const std::vector<int> by = version_in(the.carried.issue_record);
    if (by > ours) return {};
    if (the.record && says_what_its_version_says(the.record->made, by) &&
        record::write_record(the.record->made, the.record->evidence) == the.carried.issue_record)
        return {};
    return "the record of how it was made is not one that rigdeed writes";
}

// The printed pictures are those that the record names, whoever made the pages.
std::string picture_fault(Case& the) {
    if (!the.record || !the.record->made.build) return {};  // 0.1.0 did not name them
    std::vector<Digest> named = record::printed_pictures(*the.record);
    std::sort(named.begin(), named.end());
    for (const Digest& picture : the.pictures.get())
        if (!std::binary_search(named.begin(), named.end(), picture))
            return "a picture in it is not the one that its record names";
    return {};
}

// That a timestamp was to be there, or not, is sealed; that it is there is not.
std::string timestamp_fault(const Case& the) {
    if (!the.record || !the.record->made.timestamp) return {};
    const bool there = the.report.verdict.timestamp.has_value();
    if (there == *the.record->made.timestamp) return {};
    return there ? "it has a timestamp that it was not sealed with"
                 : "the timestamp that it was sealed with was taken out";
}

void tell(const Reopened& reopened, SealedReport& report) {
    const survey::Survey& survey = reopened.inspected->survey;
    report.said = Said{survey.number, survey.yacht.name, survey.yacht.hin, survey.attendance.on, survey.surveyor.name};
}

// A follow-up is judged by the report that it carries, and what that was judged by.
void judge_works(Case& the) {
    if (!the.record) return;
    const auto inspected = read_works_again(the.carried, *the.record);
    const survey::Survey& survey = inspected->report.inspected->survey;
    Date last = survey.attendance.on;
    for (const works::Item& item : inspected->works.items) last = std::max(last, item.on.value_or(last));
    the.report.said = Said{inspected->works.number, survey.yacht.name, survey.yacht.hin, last, inspected->works.rigger};
    the.report.judged = concluded(*inspected);
}

// By the rules of this program, whatever the report's were.
void judge_by_ours(Case& the) {
    try {
        if (the.report.follow_up) return judge_works(the);
        const Reopened reopened = read_again(the.carried, false);
        tell(reopened, the.report);
        the.report.judged = concluded(*reopened.inspected);
        the.report.look_again = reopened.inspected->assessment.watch_by;
    } catch (const Error& error) { the.report.not_judged = error.message; }
}

// Contents against data, as far as this program can.
void compare(Case& the, bool make_pages) {
    verify::Verdict& verdict = the.report.verdict;
    if (std::string fault = record_fault(the); !fault.empty()) return verify::judge_content(verdict, fault);
    if (std::string fault = picture_fault(the); !fault.empty()) return verify::judge_content(verdict, fault);
    if (!make_pages) return verify::leave_content_open(verdict, "--seal-only was given");
    if (!the.record)
        return verify::leave_content_open(verdict,
                                          "it was made by a later version, this is rigdeed " + std::string(version()));
    if (std::string other = other_build(the.record->made); !other.empty())
        return verify::leave_content_open(verdict, other);
    try {
        if (the.report.follow_up) {
            const std::string anew =
                make_works_anew(read_works_again(the.carried, *the.record), the.carried, the.record->made);
            return verify::judge_content(verdict, verify::first_difference(the.bytes, anew));
        }
        const Reopened reopened = read_again(the.carried, true);
        the.report.softened = reopened.inspected->softened;
        verify::judge_content(verdict, verify::first_difference(the.bytes, make_anew(reopened, the.carried)));
    } catch (const Error& error) { verify::judge_content(verdict, error.message); }
}

// Of a copy that the record names; the hollow one stands for it.
Digest digest_of(const evidence::PrintCopy& copy) {
    return copy.jpeg ? stands_for(as_text(*copy.jpeg)).value_or(Digest{}) : Digest{};
}

void tell_printed(const Case& the) {
    if (!the.record || !the.record->made.build) return;
    for (const evidence::Photo& photo : the.record->evidence.photos) {
        if (!photo.print.jpeg) continue;
        PrintedPhoto& told = the.report.printed.emplace_back();
        told.name = photo.name;
        told.original = photo.sha256;
        told.long_side = std::max(photo.print.width, photo.print.height);
        told.print = digest_of(photo.print);
        if (!photo.detail.jpeg) continue;
        told.mark = photo.detail_of;
        told.wanted = photo.detail_wanted;
        told.detail = digest_of(photo.detail);
    }
    the.report.same_copies = other_build(the.record->made).empty() && same_pictures(the.record->made);
}

void read_own_rules(Case& the) {
    if (const auto own = trade::read_carried(the.carried.own_templates)) the.report.own_rules = own->telling();
}

}  // namespace

void examine(std::string_view bytes, const Opening& opening, SealedReport& report) {
    verify::Verdict& verdict = report.verdict;
    Case the{bytes, {}, {}, report, digests_of(verdict.pictures)};
    the.carried.survey_file = report.carried("survey.xml");
    the.carried.issue_record = report.carried("issue.xml");
    the.carried.own_templates = report.carried("templates.xml");
    the.carried.before = report.carried("before.xml");
    the.carried.works_file = report.carried("works.xml");
    the.carried.signer = *verdict.signer;
    the.carried.issued_at = verdict.claims.sealed_at.value_or(0);
    the.record = record::read_record(the.carried.issue_record);
    report.follow_up = !the.carried.works_file.empty();
    if (the.record) {
        report.replaces = the.record->made.replaces;
        report.since = the.record->made.since;
        report.works = the.record->made.works.value_or(std::vector<record::Work>{});
        report.date_typed = the.record->made.date_typed;
        report.reported = the.record->made.concluded;
    }
    read_own_rules(the);
    tell_printed(the);
    if (opening.compare) judge_by_ours(the);
    if (auto photos = verify::read_register(report.carried("photos.xml"))) {
        report.photos = std::move(*photos);
        report.has_register = true;
    }
    if (std::string fault = timestamp_fault(the); !fault.empty()) {
        verify::judge_content(verdict, fault);
        verdict.reason = verify::Reason::timestamp_changed;
        return;
    }
    compare(the, opening.compare);
}

}  // namespace rigdeed::reopen
