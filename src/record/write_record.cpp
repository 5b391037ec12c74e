#include "base/hollow_jpeg.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "crypto/digest.hpp"
#include "record/fields.hpp"

namespace rigdeed::record {
namespace {

using evidence::Photo;
using evidence::PrintCopy;

class Writer {
 public:
    Writer& open(const char* name) {
        xml_ += std::string("  <") + name;
        return *this;
    }
    Writer& set(const char* name, const std::string& value) {
        if (!value.empty()) xml_ += std::string(" ") + name + "=\"" + xml::escaped(value) + "\"";
        return *this;
    }
    void close() { xml_ += "/>\n"; }
    std::string& text() { return xml_; }

 private:
    std::string xml_;
};

std::string seconds_of(const std::optional<LocalTime>& when) {
    return when ? std::to_string(seconds_since_epoch(*when)) : std::string();
}

template <class T>
std::string number_of(const std::optional<T>& number) {
    return number ? exact(static_cast<double>(*number)) : std::string();
}

// The number of colour components, from the frame header (ITU-T T.81, B.2.2).
int components(const Bytes& jpeg) {
    std::size_t at = 2;
    while (at + 9 < jpeg.size() && jpeg[at] == 0xFF) {
        if (jpeg[at + 1] >= 0xC0 && jpeg[at + 1] <= 0xC2) return jpeg[at + 9];
        at += 2U + (std::size_t{jpeg[at + 2]} << 8 | jpeg[at + 3]);
    }
    return 0;
}

std::string size_of(const PrintCopy& copy) {
    if (!copy.jpeg) return {};
    return std::to_string(copy.width) + " " + std::to_string(copy.height) + " " +
           std::to_string(components(*copy.jpeg));
}

/// In codes; what a record of before told in words stays in words.
void write_trouble(const evidence::Trouble& trouble, Writer& to) {
    if (trouble.why == evidence::Why::told_before) to.set("reason", trouble.told);
    else if (trouble.any()) to.set("trouble", std::string(evidence::row_of(trouble.why).name));
    if (trouble.number != 0) to.set("number", std::to_string(trouble.number));
    to.set("could-be", join(trouble.files, "\n"));
}

// Of a hollow one: of the one that it stands for.
std::string digest_of(const PrintCopy& copy) {
    if (!copy.jpeg) return {};
    if (!is_hollow_jpeg(as_text(*copy.jpeg))) return crypto::sha256(*copy.jpeg).hex();
    const auto original = stands_for(as_text(*copy.jpeg));
    return original ? original->hex() : std::string();
}

void set_copy(const std::string& name, const PrintCopy& copy, Writer& to) {
    to.set(name.c_str(), size_of(copy)).set((name + "-sha256").c_str(), digest_of(copy));
}

void set_conclusion(const Made& made, Writer& to) {
    if (made.date_typed) to.set("dated", *made.date_typed ? "typed" : "clock");
    if (made.timestamp) to.set("timestamp", *made.timestamp ? "yes" : "no");
    if (!made.concluded) return;
    to.set("complete", made.concluded->complete ? "yes" : "no");
    to.set("answer", made.concluded->answer).set("climbing", made.concluded->do_not_climb ? "barred" : "free");
    std::vector<std::string> counts;
    for (const std::size_t count : made.concluded->verdicts) counts.push_back(std::to_string(count));
    to.set("verdicts", join(counts, " "));
    if (made.works) to.set("works", std::to_string(made.works->size()));
}

void write_photo(const Photo& photo, Writer& to) {
    const evidence::CameraFacts& facts = photo.facts;
    to.open("photo").set("name", photo.name).set("file", photo.file);
    to.set("state", std::string(evidence::name_of(photo.state)));
    write_trouble(photo.trouble, to);
    if (photo.size > 0) to.set("sha256", photo.sha256.hex()).set("bytes", std::to_string(photo.size));
    if (photo.pixels) to.set("picture-sha256", photo.pixels->hex());
    if (photo.width > 0) to.set("width", std::to_string(photo.width)).set("height", std::to_string(photo.height));
    to.set("taken", seconds_of(facts.taken)).set("subsecond", facts.subsecond).set("offset", facts.offset);
    to.set("changed", seconds_of(facts.changed)).set("software", facts.software);
    if (facts.flash) to.set("flash", std::to_string(facts.flash->raw));
    if (facts.orientation) to.set("orientation", std::to_string(*facts.orientation));
    to.set("focal-length-35mm", number_of(facts.focal_35mm));
    if (facts.distance) to.set("distance-mm", exact(facts.distance->value));
    to.set("camera", facts.camera);
    set_copy("print", photo.print, to);
    set_copy("detail", photo.detail, to);
    if (const auto& mark = photo.detail_of)
        to.set("detail-of", exact(mark->x) + " " + exact(mark->y) + " " + exact(mark->radius));
    if (photo.detail_wanted > 0) to.set("detail-wanted", std::to_string(photo.detail_wanted));
    to.close();
}

}  // namespace

std::string write_record(const Made& made, const evidence::Evidence& evidence) {
    Writer to;
    to.text() = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<issue xmlns=\"urn:rigdeed:issue:1\"";
    to.set("program", made.program)
        .set("build", made.build ? made.build->hex() : "")
        .set("pictures", made.pictures)
        .set("templates", made.templates.hex());
    to.set("units", survey::name_of(made.units)).set("paper", std::string(row_of(made.paper).name));
    to.set("language", made.language);
    set_conclusion(made, to);
    to.text() += ">\n";
    if (made.logo.jpeg) {
        set_copy("print", made.logo, to.open("logo"));
        to.close();
    }
    if (const auto& old = made.replaces)
        to.open("replaces")
            .set("number", old->number)
            .set("issued", old->issued.iso())
            .set("sha256", old->sha256.hex())
            .set("because", old->because)
            .close();
    for (const Earlier& earlier : made.since)
        to.open("since")
            .set("number", earlier.number)
            .set("issued", earlier.issued.iso())
            .set("sha256", earlier.sha256.hex())
            .set("signer", earlier.signer)
            .set("fingerprint", earlier.fingerprint.hex())
            .close();
    for (const EarlierPhoto& photo : made.earlier_photos) {
        to.open("earlier-photo").set("of", std::to_string(photo.of)).set("name", photo.name);
        set_copy("print", photo.print, to);
        to.close();
    }
    for (const Work& work : made.works.value_or(std::vector<Work>{}))
        to.open("work")
            .set("item", std::to_string(work.item))
            .set("verdict", survey::name_of(work.verdict))
            .set("first", work.first ? "yes" : "no")
            .set("words", work.words)
            .set("because", work.because)
            .close();
    for (const Photo& photo : evidence.photos) write_photo(photo, to);
    for (const std::string& file : evidence.unused) to.open("unused").set("file", file).close();
    return to.text() + "</issue>\n";
}

}  // namespace rigdeed::record
