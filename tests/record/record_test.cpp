#include "record/record.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "survey/sample.hpp"

using namespace rigdeed;
using evidence::Why;

namespace {

record::Made made() {
    record::Made made;
    made.program = "rigdeed 9, a library \"1\", x86-64";
    made.build = Digest{};
    made.units = UnitSystem::us;
    made.paper = PaperSize::letter;
    made.language = "fr";
    made.replaces = record::Replaced{"2026-1", {2026, 10, 3}, Digest{}, "a <slip> & more"};
    return made;
}

evidence::Photo photo_with_everything() {
    evidence::Photo photo;
    photo.name = "A1";
    photo.file = "deck/A1.jpg";
    photo.refuse({});
    photo.sha256.bytes[3] = 7;
    photo.size = 4096;
    photo.width = 4000;
    photo.height = 3000;
    photo.facts.taken = LocalTime{{2026, 10, 3}, {3600}};
    photo.facts.changed = LocalTime{{2026, 10, 4}, {60}};
    photo.facts.subsecond = "042";
    photo.facts.offset = "+02:00";
    photo.facts.flash = evidence::Flash{0x19};
    photo.facts.orientation = 6;
    photo.facts.focal_35mm = 26.5;
    photo.facts.distance = Millimetres{301.25};
    photo.facts.camera = "Camera";
    photo.facts.software = "Editor";
    photo.detail_of = survey::Mark{0.25, 0.5, 0.125};
    return photo;
}

evidence::Evidence evidence_with(std::vector<evidence::Trouble> troubles) {
    evidence::Evidence evidence;
    evidence.add(photo_with_everything());
    for (evidence::Trouble& trouble : troubles) {
        evidence::Photo photo;
        photo.name = "B" + std::to_string(evidence.photos.size());
        photo.refuse(std::move(trouble));
        evidence.add(photo);
    }
    evidence.unused = {"C1.jpg", "a&b.jpg"};
    return evidence;
}

}  // namespace

TEST_CASE("a record written is the record read") {
    const auto evidence = evidence_with({});
    const auto read = record::read_record(record::write_record(made(), evidence));
    REQUIRE(read);
    CHECK(read->made.replaces == made().replaces);
    CHECK(read->made.program == made().program);
    CHECK(read->made.paper == PaperSize::letter);
    CHECK(read->evidence.unused == evidence.unused);
    const evidence::Photo& photo = read->evidence.photos.at(0);
    const evidence::Photo wanted = photo_with_everything();
    CHECK(photo.file == wanted.file);
    CHECK(photo.sha256 == wanted.sha256);
    CHECK(photo.size == wanted.size);
    CHECK(photo.width == wanted.width);
    CHECK(photo.facts.taken == wanted.facts.taken);
    CHECK(photo.facts.changed == wanted.facts.changed);
    CHECK(photo.facts.flash == wanted.facts.flash);
    CHECK(photo.facts.distance->value == wanted.facts.distance->value);
    CHECK(photo.facts.focal_35mm == wanted.facts.focal_35mm);
    CHECK(photo.detail_of == wanted.detail_of);
    CHECK(photo.usable());
    CHECK(record::write_record(read->made, read->evidence) == record::write_record(made(), evidence));
}

TEST_CASE("each trouble of a photo comes back from the record, in codes") {
    std::vector<evidence::Trouble> troubles;
    for (const evidence::WhyRow& row : evidence::why_rows())
        if (row.why != Why::told_before && row.why != Why::none) troubles.push_back({row.why, 0, {}, {}});
    troubles.push_back({Why::bits, 12, {}, {}});
    troubles.push_back({Why::several, 0, {"a b/C1.jpg", "C1.JPG"}, {}});
    const auto evidence = evidence_with(troubles);
    const std::string text = record::write_record(made(), evidence);
    const auto read = record::read_record(text);
    REQUIRE(read);
    for (std::size_t i = 0; i < troubles.size(); ++i) {
        CHECK(read->evidence.photos.at(i + 1).trouble == troubles[i]);
        CHECK(read->evidence.photos.at(i + 1).state == troubles[i].state());
    }
    CHECK(text.find("HEIC") == std::string::npos);
    CHECK(text.find("damaged") == std::string::npos);
}

TEST_CASE("a record of 0.1.0 tells trouble in words, and keeps them") {
    const std::string text = sample::replaced(
        record::write_record(made(), evidence_with({{Why::not_there, 0, {}, {}}})),
        "state=\"missing\" trouble=\"not-there\"", "state=\"missing\" reason=\"not in the photo folder\"");
    const auto read = record::read_record(text);
    REQUIRE(read);
    const evidence::Photo& photo = read->evidence.photos.at(1);
    CHECK(photo.state == evidence::State::missing);
    CHECK(photo.trouble.told == "not in the photo folder");
    CHECK(record::write_record(read->made, read->evidence) == text);
}

TEST_CASE("what is no record is not read as one") {
    const std::string text = record::write_record(made(), evidence_with({{Why::bits, 12, {}, {}}}));
    CHECK_FALSE(record::read_record("<nothing/>"));
    CHECK_FALSE(record::read_record(text.substr(0, text.size() / 2)));
    for (const auto& [from, to] :
         {std::pair{"paper=\"letter\"", "paper=\"a5\""}, std::pair{"trouble=\"bits\"", "trouble=\"odd\""},
          std::pair{"number=\"12\"", "number=\"x\""}, std::pair{"units=\"us\"", "units=\"ells\""},
          std::pair{"language=\"fr\"", "language=\"xx\""}, std::pair{"state=\"usable\"", "state=\"fine\""},
          std::pair{"<unused ", "<unheard-of "}, std::pair{"issued=\"2026-10-03\"", "issued=\"2026-13-03\""}})
        CHECK_FALSE_MESSAGE(record::read_record(sample::replaced(text, from, to)), to);
}
