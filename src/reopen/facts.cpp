#include "reopen/facts.hpp"

#include <bit>

#include "base/archive.hpp"

namespace rigdeed::reopen {
namespace {

template <class Archive>
void date_field(Archive& a, Date& date) {
    for (int* part : {&date.year, &date.month, &date.day}) a.whole(*part, 9999);
}

template <class Archive>
void concluded_field(Archive& a, record::Concluded& concluded) {
    a.whole(concluded.complete, 1);
    a.text(concluded.answer);
    a.whole(concluded.do_not_climb, 1);
    for (std::size_t& count : concluded.verdicts) a.whole(count, any_number);
}

void number_field(ArchiveWriter& a, double& number) { a.number(std::bit_cast<std::uint64_t>(number)); }

void number_field(ArchiveReader& a, double& number) {
    number = std::bit_cast<double>(a.number(any_number));
    if (!(number >= -1 && number <= 2)) a.failed = true;
}

template <class Archive>
void printed_field(Archive& a, PrintedPhoto& photo) {
    constexpr std::uint64_t largest_side = 65535;
    a.text(photo.name);
    for (Digest* digest : {&photo.original, &photo.print, &photo.detail}) digest_field(a, *digest);
    a.whole(photo.long_side, largest_side);
    a.maybe(photo.mark, [&](survey::Mark& mark) {
        for (double* number : {&mark.x, &mark.y, &mark.radius}) number_field(a, *number);
    });
    a.whole(photo.wanted, largest_side);
}

template <class Archive>
void fields(Archive& a, SealedReport& report) {
    constexpr auto worst = static_cast<std::uint64_t>(survey::Verdict::renew);
    a.whole(report.follow_up, 1);
    a.maybe(report.said, [&](Said& said) {
        for (std::string* text : {&said.number, &said.yacht, &said.hin, &said.surveyor}) a.text(*text);
        date_field(a, said.attended);
    });
    for (auto* concluded : {&report.reported, &report.judged})
        a.maybe(*concluded, [&](record::Concluded& one) { concluded_field(a, one); });
    a.text(report.not_judged);
    a.list(report.own_rules, [&](std::string& name) { a.text(name); });
    a.list(report.softened, [&](report::Softened& one) {
        a.text(one.fitting);
        a.whole(one.by_program, worst);
        a.whole(one.by_own, worst);
        a.whole(one.bar_lifted, 1);
    });
    a.maybe(report.replaces, [&](record::Replaced& old) {
        a.text(old.number);
        date_field(a, old.issued);
        digest_field(a, old.sha256);
        a.text(old.because);
    });
    a.list(report.works, [&](record::Work& work) {
        a.whole(work.item, 1'000'000);
        a.whole(work.verdict, worst);
        a.whole(work.first, 1);
        a.text(work.words);
        a.text(work.because);
    });
    a.maybe(report.look_again, [&](Date& date) { date_field(a, date); });
    a.list(report.since, [&](record::Earlier& earlier) {
        a.text(earlier.number);
        date_field(a, earlier.issued);
        digest_field(a, earlier.sha256);
        a.text(earlier.signer);
        digest_field(a, earlier.fingerprint);
    });
    a.maybe(report.date_typed, [&](bool& typed) { a.whole(typed, 1); });
    a.list(report.photos, [&](verify::RegisteredPhoto& photo) {
        a.text(photo.file);
        a.maybe(photo.sha256, [&](Digest& digest) { digest_field(a, digest); });
    });
    a.whole(report.has_register, 1);
    a.list(report.printed, [&](PrintedPhoto& photo) { printed_field(a, photo); });
    a.whole(report.same_copies, 1);
}

}  // namespace

std::string write_facts(const SealedReport& report) {
    SealedReport copy = report;
    ArchiveWriter writer;
    fields(writer, copy);
    return std::move(writer.bytes);
}

bool read_facts(std::string_view bytes, SealedReport& report) {
    ArchiveReader reader(bytes);
    fields(reader, report);
    return reader.ended_well();
}

}  // namespace rigdeed::reopen
