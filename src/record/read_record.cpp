#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/hollow_jpeg.hpp"
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

// Both attributes of a print copy: its size with the number of components, and its digest.
PrintCopy read_copy(const std::string& name, Fields& fields, bool& failed) {
    const auto size = fields.numbers<int>(name, 3, 1, largest_side);
    const auto digest = fields.digest(name + "-sha256");
    fields.fail_unless(size.empty() ? !digest : size[2] == 1 || size[2] == 3);
    if (failed || size.empty()) return {};
    return {std::make_shared<const Bytes>(hollow_jpeg(size[0], size[1], size[2], digest)), size[0], size[1]};
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
    photo.pixels = fields.digest("picture-sha256");
    photo.size = static_cast<std::uint64_t>(fields.number<std::int64_t>("bytes", 0, std::int64_t{1} << 40).value_or(0));
    photo.width = fields.number<int>("width", 0, largest_side).value_or(0);
    photo.height = fields.number<int>("height", 0, largest_side).value_or(0);
    photo.facts = read_camera(fields);
    photo.print = read_copy("print", fields, failed);
    photo.detail = read_copy("detail", fields, failed);
    if (const auto mark = fields.numbers<double>("detail-of", 3, -1, 2); !mark.empty())
        photo.detail_of = survey::Mark{mark[0], mark[1], mark[2]};
    photo.detail_wanted = fields.number<int>("detail-wanted", 1, largest_side).value_or(0);
    return photo;
}

std::optional<bool> read_either(Fields& fields, std::string_view name, std::string_view yes, std::string_view no) {
    const std::string text = fields.text(name);
    fields.fail_unless(text.empty() || text == yes || text == no);
    return text.empty() ? std::nullopt : std::optional(text == yes);
}

std::optional<Concluded> read_concluded(Fields& fields) {
    const auto complete = read_either(fields, "complete", "yes", "no");
    const std::string answer = fields.text("answer");
    const auto barred = read_either(fields, "climbing", "barred", "free");
    const auto counts = fields.numbers<std::int64_t>("verdicts", 5, 0, 1'000'000'000);
    const bool none = answer.empty();
    fields.fail_unless(none == !barred && none == counts.empty() && none == !complete);
    if (none || !barred || counts.empty() || !complete) return std::nullopt;
    Concluded concluded{*complete, answer, *barred, {}};
    std::copy(counts.begin(), counts.end(), concluded.verdicts.begin());
    return concluded;
}

Made read_made(const xml::Element& root, bool& failed) {
    Fields fields(root, failed);
    Made made;
    made.program = fields.text("program");
    made.build = fields.digest("build");
    made.pictures = fields.text("pictures");
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
    made.date_typed = read_either(fields, "dated", "typed", "clock");
    made.timestamp = read_either(fields, "timestamp", "yes", "no");
    made.concluded = read_concluded(fields);
    made.templates = templates.value_or(Digest{});
    return made;
}

Work read_work(const xml::Element& element, bool& failed) {
    Fields fields(element, failed);
    const auto item = fields.number<int>("item", 1, 1'000'000);
    const auto& known = survey::names(survey::Verdict{});
    const std::string name = fields.text("verdict");
    const auto row = std::find_if(known.begin(), known.end(), [&](const auto& one) { return one.name == name; });
    const auto first = read_either(fields, "first", "yes", "no");
    fields.fail_unless(item && row != known.end() && first);
    if (!item || row == known.end() || !first) return {};
    return {*item, row->value, *first, fields.text("words"), fields.text("because")};
}

Replaced read_replaced(const xml::Element& element, bool& failed) {
    Fields fields(element, failed);
    const auto issued = read_date(fields.text("issued"));
    const auto digest = fields.digest("sha256");
    fields.fail_unless(issued && digest);
    return {fields.text("number"), issued.value_or(Date{}), digest.value_or(Digest{}), fields.text("because")};
}

Earlier read_earlier(const xml::Element& element, bool& failed) {
    Fields fields(element, failed);
    const auto issued = read_date(fields.text("issued"));
    const auto digest = fields.digest("sha256"), fingerprint = fields.digest("fingerprint");
    fields.fail_unless(issued && digest && fingerprint);
    return {fields.text("number"), issued.value_or(Date{}), digest.value_or(Digest{}), fields.text("signer"),
            fingerprint.value_or(Digest{})};
}

EarlierPhoto read_earlier_photo(const xml::Element& element, std::size_t reports, bool& failed) {
    Fields fields(element, failed);
    const auto of = fields.number<std::size_t>("of", 0, 1000);
    EarlierPhoto photo{of.value_or(0), fields.text("name"), read_copy("print", fields, failed), {}};
    const auto digest = photo.print.jpeg ? stands_for(as_text(*photo.print.jpeg)) : std::nullopt;
    fields.fail_unless(of && *of < reports && digest);
    photo.sha256 = digest.value_or(Digest{});
    return photo;
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
    Reading reading;
    reading.made = read_made(*root, failed);
    const auto announced = Fields(*root, failed).number<std::int64_t>("works", 0, 1'000'000);
    auto& works = reading.made.works;
    if (announced) works.emplace();
    for (const xml::Element& child : root->children) {
        if (child.name == "photo") reading.evidence.add(read_photo(child, failed));
        else if (child.name == "unused") reading.evidence.unused.push_back(child.get("file").value_or(""));
        else if (child.name == "logo") {
            Fields logo(child, failed);
            reading.made.logo = read_copy("print", logo, failed);
        } else if (child.name == "replaces") reading.made.replaces = read_replaced(child, failed);
        else if (child.name == "since") reading.made.since.push_back(read_earlier(child, failed));
        else if (child.name == "earlier-photo")
            reading.made.earlier_photos.push_back(read_earlier_photo(child, reading.made.since.size(), failed));
        else if (child.name == "work" && works) works->push_back(read_work(child, failed));
        else failed = true;
    }
    failed |= works.has_value() && static_cast<std::int64_t>(works->size()) != *announced;
    if (failed) return std::nullopt;
    return reading;
}

std::string program_of(const Made& made) { return made.program.substr(0, made.program.find(',')); }

std::vector<Digest> printed_pictures(const Reading& reading) {
    std::vector<Digest> digests;
    const auto add = [&](const PrintCopy& copy) {
        if (const auto original = copy.jpeg ? stands_for(as_text(*copy.jpeg)) : std::nullopt)
            digests.push_back(*original);
    };
    add(reading.made.logo);
    for (const EarlierPhoto& photo : reading.made.earlier_photos) add(photo.print);
    for (const Photo& photo : reading.evidence.photos) add(photo.print), add(photo.detail);
    return digests;
}

}  // namespace rigdeed::record
