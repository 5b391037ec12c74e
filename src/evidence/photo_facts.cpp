#include "evidence/photo_facts.hpp"

#include <bit>

#include "evidence/jpeg_structure.hpp"

namespace rigdeed::evidence {
namespace {

constexpr std::uint64_t largest_side = 65535;

void number_field(ArchiveWriter& a, double& number, double, double) { a.number(std::bit_cast<std::uint64_t>(number)); }

void number_field(ArchiveReader& a, double& number, double least, double most) {
    number = std::bit_cast<double>(a.number(any_number));
    if (!(number >= least && number <= most)) a.failed = true;
}

constexpr std::uint64_t last_second = 253402300799;  // of the year 9999

void time_field(ArchiveWriter& a, LocalTime& time) {
    a.number(static_cast<std::uint64_t>(std::max<std::int64_t>(seconds_since_epoch(time), 0)));
}

void time_field(ArchiveReader& a, LocalTime& time) {
    time = local_from_seconds(static_cast<std::int64_t>(a.number(last_second)));
}

}  // namespace

void copy_field(ArchiveWriter& a, PrintCopy& copy) {
    a.whole(copy.width, largest_side);
    a.whole(copy.height, largest_side);
    Bytes bytes = copy.jpeg ? *copy.jpeg : Bytes{};
    a.block(bytes);
}

void copy_field(ArchiveReader& a, PrintCopy& copy) {
    a.whole(copy.width, largest_side);
    a.whole(copy.height, largest_side);
    Bytes bytes;
    a.block(bytes);
    if (!bytes.empty()) copy.jpeg = std::make_shared<const Bytes>(std::move(bytes));
}

void mark_field(ArchiveWriter& a, survey::Mark& mark) {
    for (double* number : {&mark.x, &mark.y, &mark.radius}) number_field(a, *number, -1, 2);
}

void mark_field(ArchiveReader& a, survey::Mark& mark) {
    for (double* number : {&mark.x, &mark.y, &mark.radius}) number_field(a, *number, -1, 2);
}

bool is_sound_copy(const PrintCopy& copy) {
    if (!copy.jpeg) return copy.width == 0 && copy.height == 0;
    const JpegStructure structure = read_structure(*copy.jpeg);
    return !structure.trouble.any() && structure.width == copy.width && structure.height == copy.height &&
           structure.components == 3;
}

namespace {

template <class Archive>
void fields(Archive& a, Photo& photo) {
    constexpr double largest_number = 1e12;
    a.whole(photo.trouble.why, static_cast<std::uint64_t>(Why::told_before));
    a.whole(photo.trouble.number, 1 << 20);
    a.maybe(photo.pixels, [&](Digest& digest) { digest_field(a, digest); });
    a.maybe(photo.finest_edge, [&](double& edge) { number_field(a, edge, 0, largest_number); });
    for (int* side : {&photo.width, &photo.height}) a.whole(*side, largest_side);
    CameraFacts& facts = photo.facts;
    for (auto* time : {&facts.taken, &facts.changed}) a.maybe(*time, [&](LocalTime& one) { time_field(a, one); });
    for (std::string* text : {&facts.subsecond, &facts.offset, &facts.camera, &facts.software}) a.text(*text);
    a.maybe(facts.flash, [&](Flash& flash) { a.whole(flash.raw, 65535); });
    a.maybe(facts.orientation, [&](int& orientation) { a.whole(orientation, 8); });
    a.maybe(facts.focal_35mm, [&](double& focal) { number_field(a, focal, 0, largest_number); });
    a.maybe(facts.distance, [&](Millimetres& distance) { number_field(a, distance.value, 0, largest_number); });
    for (PrintCopy* copy : {&photo.print, &photo.detail}) copy_field(a, *copy);
    a.maybe(photo.detail_of, [&](survey::Mark& mark) { mark_field(a, mark); });
    a.whole(photo.detail_wanted, largest_side);
}

}  // namespace

std::string write_facts(const Photo& photo) {
    Photo copy = photo;
    ArchiveWriter writer;
    fields(writer, copy);
    return std::move(writer.bytes);
}

bool read_facts(std::string_view bytes, Photo& photo) {
    ArchiveReader reader(bytes);
    fields(reader, photo);
    if (!reader.ended_well()) return false;
    photo.refuse(photo.trouble);
    return true;
}

}  // namespace rigdeed::evidence
