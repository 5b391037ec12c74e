#include "evidence/exif.hpp"

#include <cmath>
#include <exiv2/exiv2.hpp>

#include "base/text.hpp"

namespace rigdeed::evidence {
namespace {

const Exiv2::Value* find(const Exiv2::ExifData& exif, const char* key, Exiv2::TypeId type) {
    const auto found = exif.findKey(Exiv2::ExifKey(key));
    if (found == exif.end() || found->typeId() != type || found->count() == 0) return nullptr;
    return &found->value();
}

/// A text without the padding cameras write: cut at the first NUL, printable ASCII, trimmed.
std::string read_text(const Exiv2::ExifData& exif, const char* key) {
    const auto* value = find(exif, key, Exiv2::asciiString);
    if (value == nullptr) return {};
    const std::string raw = value->toString();
    std::string text;
    for (const char c : raw.substr(0, raw.find('\0'))) text += c >= 0x20 && c < 0x7F ? c : ' ';
    return squeezed(text).substr(0, 60);
}

/// "2026:10:03 09:14:05"; zeros, blanks and days that do not exist are no time.
std::optional<LocalTime> read_when(const Exiv2::ExifData& exif, const char* key) {
    const std::string text = read_text(exif, key);
    if (text.size() != 19 || text[4] != ':' || text[7] != ':' || text[10] != ' ') return std::nullopt;
    const auto date = read_date(text.substr(0, 4) + "-" + text.substr(5, 2) + "-" + text.substr(8, 2));
    const auto time = read_time(text.substr(11));
    if (!date || !time) return std::nullopt;
    return LocalTime{*date, *time};
}

std::optional<int> read_short(const Exiv2::ExifData& exif, const char* key, long least, long most) {
    const auto* value = find(exif, key, Exiv2::unsignedShort);
    if (value == nullptr || value->toLong() < least || value->toLong() > most) return std::nullopt;
    return static_cast<int>(value->toLong());
}

/// 0 is "unknown" and 0xFFFFFFFF "infinity" by the standard; 1/0 is what some cameras write instead.
std::optional<Millimetres> read_distance(const Exiv2::ExifData& exif) {
    const auto* value = find(exif, "Exif.Photo.SubjectDistance", Exiv2::unsignedRational);
    if (value == nullptr) return std::nullopt;
    const auto [above, below] = value->toRational();
    const auto top = static_cast<unsigned>(above);
    const auto bottom = static_cast<unsigned>(below);
    if (bottom == 0 || top == 0 || top == 0xFFFFFFFFU) return std::nullopt;
    const double metres = static_cast<double>(top) / bottom;
    return metres < 1000 ? std::optional(Millimetres{metres * 1000}) : std::nullopt;
}

std::string read_offset(const Exiv2::ExifData& exif) {
    const std::string text = read_text(exif, "Exif.Photo.OffsetTimeOriginal");
    const bool shaped = text.size() == 6 && (text[0] == '+' || text[0] == '-') && read_time(text.substr(1)).has_value();
    return shaped ? text : std::string();
}

std::string read_subsecond(const Exiv2::ExifData& exif) {
    const std::string text = read_text(exif, "Exif.Photo.SubSecTimeOriginal");
    return text.find_first_not_of("0123456789") == std::string::npos ? text : std::string();
}

std::string read_camera(const Exiv2::ExifData& exif) {
    const std::string make = read_text(exif, "Exif.Image.Make");
    const std::string model = read_text(exif, "Exif.Image.Model");
    if (model.starts_with(make)) return model;
    return std::string(trim(make + " " + model));
}

}  // namespace

void prepare_exif() { Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute); }

CameraFacts read_exif(std::string_view tiff) {
    CameraFacts facts;
    try {
        Exiv2::ExifData exif;
        Exiv2::ExifParser::decode(exif, reinterpret_cast<const Exiv2::byte*>(tiff.data()),
                                  static_cast<std::uint32_t>(tiff.size()));
        facts.taken = read_when(exif, "Exif.Photo.DateTimeOriginal");
        facts.subsecond = read_subsecond(exif);
        facts.offset = read_offset(exif);
        facts.changed = read_when(exif, "Exif.Image.DateTime");
        facts.orientation = read_short(exif, "Exif.Image.Orientation", 1, 8);
        if (const auto raw = read_short(exif, "Exif.Photo.Flash", 0, 0x7F)) facts.flash = Flash{*raw};
        if (const auto focal = read_short(exif, "Exif.Photo.FocalLengthIn35mmFilm", 1, 5000)) facts.focal_35mm = *focal;
        facts.distance = read_distance(exif);
        facts.camera = read_camera(exif);
        facts.software = read_text(exif, "Exif.Image.Software");
    } catch (const std::exception&) {
        // A damaged block: what was read before the damage stands, the rest is not recorded.
    }
    return facts;
}

}  // namespace rigdeed::evidence
