#include <map>
#include <set>

#include "base/text.hpp"
#include "base/xml.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

std::string seen_times(const survey::Fitting& fitting) {
    const auto time = [&](survey::Way pass) {
        const survey::Seen* seen = fitting.in(pass);
        return seen != nullptr ? seen->at.hh_mm() : std::string("–");
    };
    return time(survey::Way::up) + ", " + time(survey::Way::down);
}

/// What most photos share is told once, and of the others with each: day, offset, size, which way up they were held.
class Shared {
 public:
    explicit Shared(const Material& material) {
        std::map<std::string, std::size_t> days, offsets, sizes, held;
        std::size_t all = 0;
        for (const evidence::Photo& photo : material.evidence.photos) {
            if (!photo.usable()) continue;
            ++all;
            if (photo.facts.taken) ++days[photo.facts.taken->date.iso()];
            ++offsets[photo.facts.offset];
            ++sizes[size_words(material, photo)];
            ++held[held_words(material, photo)];
        }
        const auto most = [&](const std::map<std::string, std::size_t>& counts) {
            for (const auto& [value, count] : counts)
                if (count * 2 > all) return value;
            return std::string();
        };
        day_ = most(days), offset_ = most(offsets), size_ = most(sizes), held_ = most(held);
    }

    static std::string size_words(const Material& material, const evidence::Photo& photo) {
        return material.trade.wording(
            "register.pixels", {{"width", std::to_string(photo.width)}, {"height", std::to_string(photo.height)}});
    }

    static std::string held_words(const Material& material, const evidence::Photo& photo) {
        return photo.facts.orientation
                   ? material.trade.wording("register.orientation", {{"n", std::to_string(*photo.facts.orientation)}})
                   : material.trade.wording("register.no-orientation");
    }

    /// Its day and offset only where they are not the shared ones.
    [[nodiscard]] std::string camera_time(const evidence::Photo& photo) const {
        std::string text = photo.facts.taken->time.hh_mm_ss();
        if (!photo.facts.subsecond.empty()) text += "." + photo.facts.subsecond;
        const std::string day = photo.facts.taken->date.iso();
        if (day != day_) text = day + " " + text;
        if (photo.facts.offset != offset_) text += " " + (photo.facts.offset.empty() ? "–" : photo.facts.offset);
        return text;
    }

    void add_others(const Material& material, const evidence::Photo& photo, std::vector<std::string>& parts) const {
        if (held_words(material, photo) != held_) parts.push_back(held_words(material, photo));
        if (size_words(material, photo) != size_) parts.push_back(size_words(material, photo));
    }

    [[nodiscard]] std::string words() const {
        std::vector<std::string> parts;
        for (const std::string* one : {&day_, &offset_, &size_, &held_})
            if (!one->empty()) parts.push_back(*one);
        return join(parts, ", ");
    }

 private:
    std::string day_, offset_, size_, held_;
};

/// Each photo in full where it is named first; after that by its name alone.
class Register {
 public:
    explicit Register(const Material& material)
        : material_(material), words_(material.trade.wording), shared_(material) {}

    RowGroup fittings() {
        RowGroup group;
        std::size_t sound = 0;  // in the order of their chapter
        for (const assessment::FittingVerdict& one : material_.assessment.fittings) {
            Row row;
            row.link = one.is_finding() ? finding_anchor(one.number) : PairGrid::anchor_of(sound_anchor, sound++);
            row.cells.resize(7);
            row.cells[0].mark = VerdictMark{one.verdict, 0};  // the number would be too small to read
            row.cells[1].bold = capitalised(one.name);
            std::vector<std::string> measured;
            for (const survey::Measured& value : one.fitting->measured)
                measured.push_back(measured_words(value, material_.trade));
            if (!measured.empty()) row.cells[1].lines = {join(measured, ", ")};
            row.cells[2].lines = {one.fitting->id};
            row.cells[3].lines = {words_.numbers(one.fitting->height.text)};
            row.cells[4].lines = {one.absent ? std::string("–") : seen_times(*one.fitting)};
            row.cells[5].lines = {verdict_word(one.verdict, words_) +
                                  (one.number > 0 ? "\xC2\xA0" + std::to_string(one.number) : "")};
            row.cells[6].page_of = row.link;
            for (const survey::Seen& seen : one.fitting->seen) {
                const std::string pass = words_(seen.pass == survey::Way::up ? "finding.up" : "finding.down");
                note(row, seen.far, words_("photo.far") + " " + pass);
                note(row, seen.close, words_("photo.close") + " " + pass);
            }
            close_up(row.notes);
            group.rows.push_back(std::move(row));
        }
        return group;
    }

    /// Of no fitting: views of the yacht, what nobody named.
    RowGroup others() {
        RowGroup group{words_("register.others"), "", {}};
        for (const evidence::Photo& photo : material_.evidence.photos) {
            if (told_.contains(photo.name)) continue;
            Row row;
            row.cells.resize(7);
            row.cells[1].bold = photo.name;
            for (const survey::OtherPhoto& other : material_.survey.photos.others)
                if (other.name == photo.name) row.cells[1].lines = {other.shows};
            note(row, photo.name, "");
            group.rows.push_back(std::move(row));
        }
        return group;
    }

    [[nodiscard]] const std::set<std::string>& cameras() const { return cameras_; }
    [[nodiscard]] std::string shared() const { return shared_.words(); }

 private:
    void note(Row& row, const std::string& name, const std::string& role) {
        if (name.empty()) return;
        const std::string called = role.empty() ? name : name + " " + role;
        const evidence::Photo* photo = material_.evidence.find(name);
        if (!told_.insert(name).second || photo == nullptr) {
            row.notes.push_back({photo == nullptr ? called : words_("register.above", {{"photo", called}})});
            return;
        }
        if (!photo->facts.camera.empty()) cameras_.insert(photo->facts.camera);
        row.notes.push_back(lines(*photo, called));
    }

    /// Where one photo alone is told in full, it has the whole width, and those told above stand before it.
    void close_up(std::vector<std::vector<std::string>>& notes) const {
        std::vector<std::string> above, full;
        for (const std::vector<std::string>& note : notes) {
            if (note.size() == 1) above.push_back(note.front());
            else if (full.empty()) full = note;
            else return;
        }
        if (full.empty()) {
            if (!above.empty()) notes = {{join(above, "; ")}};
            return;
        }
        above.push_back(join({full.begin(), full.end() - 1}, ", "));
        notes = {{join(above, "; "), full.back()}};
    }

    std::vector<std::string> lines(const evidence::Photo& photo, const std::string& called) const {
        std::vector<std::string> lines;
        if (!photo.usable()) {
            lines.push_back(said(words_, called, unusable_words(photo, words_)) + " " + photo.file);
        } else {
            const bool plain = photo.file.starts_with(photo.name + ".");  // "A0015.jpg far": name and file in one
            const std::string named =
                plain ? photo.file + called.substr(photo.name.size()) : called + ", " + photo.file;
            lines.push_back(named + ", " + taken(photo) + ", " + as_printed(photo));
        }
        if (photo.size > 0) lines.push_back(photo.sha256.hex());
        return lines;
    }

    std::string taken(const evidence::Photo& photo) const {
        if (!photo.facts.taken) return words_("photo.time-unknown");
        const survey::Photos& photos = material_.survey.photos;
        std::string text = shared_.camera_time(photo);
        if (photos.clock_of(photo.facts.camera) != 0)
            text += ", " + words_("register.true", {{"time", photo.true_time(photos)->time.hh_mm_ss()}});
        return text;
    }

    std::string as_printed(const evidence::Photo& photo) const {
        const auto size = [&](const char* key, int width, int height) {
            return words_(key, {{"width", std::to_string(width)}, {"height", std::to_string(height)}});
        };
        std::vector<std::string> parts{flash_words(material_, photo)};
        shared_.add_others(material_, photo, parts);
        if (const auto scale = photo.scale())
            parts.push_back(words_("photo.scale", {{"scale", words_.number(scale->value, 3)}}));
        if (photo.print.width > 0) parts.push_back(size("register.printed", photo.print.width, photo.print.height));
        return join(parts, ", ");
    }

    const Material& material_;
    const trade::Wording& words_;
    Shared shared_;
    std::set<std::string> told_;
    std::set<std::string> cameras_;
};

}  // namespace

void remarks_and_register(const Material& material, Blocks& blocks) {
    evidence_remarks(material, blocks);
    const trade::Wording& words = material.trade.wording;
    add(blocks, Heading{Level::section, words("register.title"), words("register.remark"), "", ""});
    add(blocks, Paragraph{words("register.intro", {{"clock", clock_offset_text(material.survey.photos.camera_clock)}}),
                          Tone::body});
    Table table;
    table.small = true;
    table.columns = {{"", 0.06, Align::left},
                     {words("rig.head.fitting"), 0.36, Align::left, true},
                     {words("rig.head.id"), 0.22, Align::left},
                     {words("rig.head.height"), 0.09, Align::right},
                     {words("rig.head.seen"), 0.12, Align::right},
                     {words("rig.head.verdict"), 0.10, Align::right},
                     {words("rig.head.page"), 0.05, Align::right}};
    Register all(material);
    if (const std::string shared = all.shared(); !shared.empty())
        add(blocks, Paragraph{words("register.shared", {{"facts", shared}}), Tone::body});
    table.groups = {all.fittings()};
    if (RowGroup others = all.others(); !others.rows.empty()) table.groups.push_back(std::move(others));
    add(blocks, std::move(table));
    if (const auto& cameras = all.cameras(); !cameras.empty())
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
