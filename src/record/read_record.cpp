#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/language.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "crypto/certificate.hpp"
#include "record/fields.hpp"

namespace rigdeed::record {
namespace {

using evidence::Photo;
using evidence::PrintCopy;

// Whatever cannot be read makes the whole record one that cannot.
class Fields {
 public:
    explicit Fields(const xml::Element& element, bool& failed) : element_(element), failed_(failed) {}

    std::string text(std::string_view name) { return element_.get(name).value_or(""); }

    template <class T>
    std::optional<T> number(std::string_view name, T least, T most) {
        const auto text = element_.get(name);
        return text ? read<T>(*text, least, most) : std::nullopt;
    }

    template <class T>
    std::vector<T> numbers(std::string_view name, std::size_t count, T least, T most) {
        std::vector<T> found;
        const auto text = element_.get(name);
        if (!text) return found;
        for (const std::string& one : split(*text, ' ')) found.push_back(read<T>(one, least, most).value_or(least));
        if (found.size() != count) failed_ = true, found.clear();
        return found;
    }

    std::optional<Digest> digest(std::string_view name) {
        const auto text = element_.get(name);
        const auto read = text ? crypto::read_fingerprint(*text) : std::nullopt;
        failed_ |= text.has_value() != read.has_value();
        return read;
    }

    std::optional<LocalTime> time(std::string_view name) {
        const auto seconds = number<std::int64_t>(name, -62135596800, 253402300799);
        return seconds ? std::optional(local_from_seconds(*seconds)) : std::nullopt;
    }

    void fail_unless(bool truth) { failed_ |= !truth; }

 private:
    template <class T>
    std::optional<T> read(const std::string& text, T least, T most) {
        T value{};
        const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (code == std::errc{} && end == text.data() + text.size() && value >= least && value <= most) return value;
        failed_ = true;
        return std::nullopt;
    }

    const xml::Element& element_;
    bool& failed_;
};

constexpr int largest_side = 65535;
constexpr double largest_number = 1e12;

// Start, a frame header that names the components, end: no pixels.
PrintCopy copy_without_pixels(const std::vector<int>& size) {
    if (size.empty()) return {};
    const auto byte = [](int value) { return static_cast<unsigned char>(value & 0xFF); };
    Bytes jpeg{0xFF,
               0xD8,
               0xFF,
               0xC0,
               0,
               byte(8 + 3 * size[2]),
               8,
               byte(size[1] >> 8),
               byte(size[1]),
               byte(size[0] >> 8),
               byte(size[0]),
               byte(size[2])};
    for (int i = 0; i < size[2]; ++i) jpeg.insert(jpeg.end(), {byte(i + 1), 0x11, 0});
    jpeg.insert(jpeg.end(), {0xFF, 0xD9});
    return {std::make_shared<const Bytes>(std::move(jpeg)), size[0], size[1]};
}

evidence::CameraFacts read_camera(Fields& fields) {
    evidence::CameraFacts facts;
    facts.taken = fields.time("taken");
    facts.subsecond = fields.text("subsecond");
    facts.offset = fields.text("offset");
    facts.changed = fields.time("changed");
    facts.software = fields.text("software");
    facts.camera = fields.text("camera");
    if (const auto flash = fields.number<int>("flash", 0, 65535)) facts.flash = evidence::Flash{*flash};
    facts.orientation = fields.number<int>("orientation", 0, 65535);
    facts.focal_35mm = fields.number<double>("focal-length-35mm", 0, largest_number);
    if (const auto distance = fields.number<double>("distance-mm", 0, largest_number))
        facts.distance = Millimetres{*distance};
    return facts;
}

/// Codes; in records of 0.1.0 a reason in English.
evidence::Trouble read_trouble(Fields& fields) {
    evidence::Trouble trouble;
    if (std::string reason = fields.text("reason"); !reason.empty())
        return {evidence::Why::told_before, 0, {}, std::move(reason)};
    const std::string name = fields.text("trouble");
    if (name.empty()) return trouble;
    const auto why = evidence::why_named(name);
    fields.fail_unless(why.has_value());
    trouble.why = why.value_or(evidence::Why::not_there);
    trouble.number = fields.number<int>("number", 0, 1 << 20).value_or(0);
    if (const std::string files = fields.text("could-be"); !files.empty()) trouble.files = split(files, '\n');
    return trouble;
}

Photo read_photo(const xml::Element& element, bool& failed) {
    Fields fields(element, failed);
    Photo photo;
    photo.name = fields.text("name");
    photo.file = fields.text("file");
    const std::string state = fields.text("state");
    const auto* known = std::find_if(evidence::state_names.begin(), evidence::state_names.end(),
                                     [&](const evidence::StateName& one) { return one.name == state; });
    fields.fail_unless(known != evidence::state_names.end());
    photo.refuse(read_trouble(fields));
    if (known != evidence::state_names.end()) photo.state = known->state;
    photo.sha256 = fields.digest("sha256").value_or(Digest{});
    photo.size = static_cast<std::uint64_t>(fields.number<std::int64_t>("bytes", 0, std::int64_t{1} << 40).value_or(0));
    photo.width = fields.number<int>("width", 0, largest_side).value_or(0);
    photo.height = fields.number<int>("height", 0, largest_side).value_or(0);
    photo.facts = read_camera(fields);
    for (auto [name, copy] : {std::pair{"print", &photo.print}, std::pair{"detail", &photo.detail}}) {
        const auto size = fields.numbers<int>(name, 3, 1, largest_side);
        fields.fail_unless(size.empty() || size[2] == 1 || size[2] == 3);
        if (!failed) *copy = copy_without_pixels(size);
    }
    if (const auto mark = fields.numbers<double>("detail-of", 3, -1, 2); !mark.empty())
        photo.detail_of = survey::Mark{mark[0], mark[1], mark[2]};
    return photo;
}

Made read_made(const xml::Element& root, bool& failed) {
    Fields fields(root, failed);
    Made made;
    made.program = fields.text("program");
    made.build = fields.digest("build");
    const auto templates = fields.digest("templates");
    const std::string units = fields.text("units");
    const auto& known = survey::names(UnitSystem{});
    const auto row = std::find_if(known.begin(), known.end(), [&](const auto& one) { return one.name == units; });
    const auto paper = read_paper(fields.text("paper"));
    fields.fail_unless(paper.has_value());
    made.paper = paper.value_or(made.paper);
    made.language = fields.text("language");
    fields.fail_unless(std::find(languages.begin(), languages.end(), made.language) != languages.end());
    fields.fail_unless(templates && row != known.end());
    if (row != known.end()) made.units = row->value;
    made.templates = templates.value_or(Digest{});
    return made;
}

Replaced read_replaced(const xml::Element& element, bool& failed) {
    Fields fields(element, failed);
    const auto issued = read_date(fields.text("issued"));
    const auto digest = fields.digest("sha256");
    fields.fail_unless(issued && digest);
    return {fields.text("number"), issued.value_or(Date{}), digest.value_or(Digest{}), fields.text("because")};
}

}  // namespace

std::string exact(double value) {
    std::array<char, 32> digits{};
    const auto [end, code] = std::to_chars(digits.data(), digits.data() + digits.size(), value);
    return code == std::errc{} ? std::string(digits.data(), end) : std::string();
}

std::optional<Reading> read_record(std::string_view text) {
    const auto [root, problems] = xml::read(text, "issue.xml");
    if (!root || root->name != "issue") return std::nullopt;
    bool failed = false;
    Reading reading{read_made(*root, failed), {}};
    for (const xml::Element& child : root->children) {
        if (child.name == "photo") reading.evidence.add(read_photo(child, failed));
        else if (child.name == "unused") reading.evidence.unused.push_back(child.get("file").value_or(""));
        else if (child.name == "replaces") reading.made.replaces = read_replaced(child, failed);
        else failed = true;
    }
    if (failed) return std::nullopt;
    return reading;
}

}  // namespace rigdeed::record
