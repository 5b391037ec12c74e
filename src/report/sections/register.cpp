#include <set>

#include "base/text.hpp"
#include "base/xml.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

std::string camera_time(const evidence::Photo& photo) {
    std::string text = photo.facts.taken->date.iso() + " " + photo.facts.taken->time.hh_mm_ss();
    if (!photo.facts.subsecond.empty()) text += "." + photo.facts.subsecond;
    if (!photo.facts.offset.empty()) text += " " + photo.facts.offset;
    return text;
}

Row row(const Material& material, const evidence::Photo& photo) {
    const trade::Wording& words = material.trade.wording;
    Row row;
    row.cells.resize(4);
    row.cells[0].bold = photo.name;
    if (photo.size > 0) row.below = words("register.hash", {{"hash", photo.sha256.hex()}, {"file", photo.file}});
    if (!photo.usable()) {
        row.cells[1].lines = {unusable_words(photo, words)};
        return row;
    }
    const int clock = material.survey.photos.camera_clock;
    row.cells[1].lines = {photo.facts.taken ? camera_time(photo) : words("photo.time-unknown")};
    if (photo.facts.taken && clock != 0)
        row.cells[1].lines.front() +=
            ", " + words("register.true", {{"time", photo.true_time(clock)->time.hh_mm_ss()}});
    const std::string orientation =
        photo.facts.orientation ? words("register.orientation", {{"n", std::to_string(*photo.facts.orientation)}})
                                : words("register.no-orientation");
    if (photo.facts.flash && photo.facts.orientation)
        row.cells[2].lines = {flash_words(material, photo) + ", " + orientation};
    else row.cells[2].lines = {flash_words(material, photo), orientation};
    std::string size =
        words("register.pixels", {{"width", std::to_string(photo.width)}, {"height", std::to_string(photo.height)}});
    if (const auto scale = photo.scale())
        size += ", " + words("photo.scale", {{"scale", words.number(scale->value, 3)}});
    row.cells[3].lines = {size};
    if (photo.print.width > 0)
        row.below += ", " + words("register.printed", {{"width", std::to_string(photo.print.width)},
                                                       {"height", std::to_string(photo.print.height)}});
    return row;
}

}  // namespace

void remarks_and_register(const Material& material, Blocks& blocks) {
    evidence_remarks(material, blocks);
    const trade::Wording& words = material.trade.wording;
    add(blocks, Heading{Level::section, words("register.title"), "", "", ""});
    add(blocks, Paragraph{words("register.intro", {{"clock", clock_offset_text(material.survey.photos.camera_clock)}}),
                          Tone::body});
    Table table;
    table.columns = {{words("register.head.name"), 0.13, Align::left},
                     {words("register.head.time"), 0.36, Align::left},
                     {words("register.head.flash"), 0.27, Align::left},
                     {words("register.head.size"), 0.24, Align::left}};
    RowGroup group;
    std::set<std::string> cameras;
    for (const evidence::Photo& photo : material.evidence.photos) {
        group.rows.push_back(row(material, photo));
        if (!photo.facts.camera.empty()) cameras.insert(photo.facts.camera);
    }
    table.groups = {std::move(group)};
    add(blocks, std::move(table));
    if (!cameras.empty())
        add(blocks, Paragraph{words("register.cameras", {{"cameras", words.listed({cameras.begin(), cameras.end()})}}),
                              Tone::quiet});
}

std::string write_register(const survey::Survey& survey, const evidence::Evidence& evidence) {
    std::string xml =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<photo-register xmlns=\"urn:rigdeed:photos:1\" survey=\"" +
        xml::escaped(survey.number) + "\">\n";
    const auto attribute = [&](const char* name, const std::string& value) {
        if (!value.empty()) xml += std::string(" ") + name + "=\"" + xml::escaped(value) + "\"";
    };
    for (const evidence::Photo& photo : evidence.photos) {
        xml += "  <photo";
        attribute("name", photo.name);
        attribute("file", photo.file);
        if (photo.size > 0) {
            attribute("bytes", std::to_string(photo.size));
            attribute("sha256", photo.sha256.hex());
        }
        if (photo.usable()) {
            attribute("width", std::to_string(photo.width));
            attribute("height", std::to_string(photo.height));
        } else {
            attribute("unusable", std::string(evidence::row_of(photo.trouble.why).name));
        }
        if (photo.facts.taken)
            attribute("taken", photo.facts.taken->date.iso() + "T" + photo.facts.taken->time.hh_mm_ss());
        attribute("subsecond", photo.facts.subsecond);
        attribute("offset", photo.facts.offset);
        if (photo.facts.flash) attribute("flash", std::to_string(photo.facts.flash->raw));
        if (photo.facts.orientation) attribute("orientation", std::to_string(*photo.facts.orientation));
        if (photo.facts.focal_35mm) attribute("focal-length-35mm", fixed(*photo.facts.focal_35mm, 0));
        if (photo.facts.distance) attribute("distance-mm", fixed(photo.facts.distance->value, 0));
        attribute("camera", photo.facts.camera);
        xml += "/>\n";
    }
    return xml + "</photo-register>\n";
}

}  // namespace rigdeed::report
