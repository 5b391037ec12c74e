// Start, the comment, a frame header that names the components, end (ITU-T T.81, annex B). An encoder's file begins
// with an application segment and has scans, so neither is taken for the other.
#include "base/hollow_jpeg.hpp"

#include <algorithm>
#include <string>

namespace rigdeed {
namespace {

constexpr std::string_view start{"\xFF\xD8", 2}, comment{"\xFF\xFE\x00\x22", 4}, frame{"\xFF\xC0\x00", 3},
    end{"\xFF\xD9", 2};
constexpr std::size_t digest_size = 32;

std::string_view without_comment(std::string_view jpeg) {
    if (!jpeg.starts_with(start)) return {};
    jpeg.remove_prefix(start.size());
    if (jpeg.starts_with(comment)) jpeg.remove_prefix(std::min(jpeg.size(), comment.size() + digest_size));
    return jpeg;
}

}  // namespace

Bytes hollow_jpeg(int width, int height, int components, const std::optional<Digest>& stands_for) {
    const auto byte = [](int value) { return static_cast<char>(value & 0xFF); };
    std::string jpeg(start);
    if (stands_for) {
        jpeg += comment;
        for (const unsigned char one : stands_for->bytes) jpeg += static_cast<char>(one);
    }
    jpeg += frame;
    for (const int value : {8 + 3 * components, 8, height >> 8, height, width >> 8, width, components})
        jpeg += byte(value);
    for (int i = 0; i < components; ++i)
        for (const int value : {i + 1, 0x11, 0}) jpeg += byte(value);
    return to_bytes(jpeg += end);
}

bool is_hollow_jpeg(std::string_view jpeg) {
    const std::string_view rest = without_comment(jpeg);
    if (!rest.starts_with(frame) || rest.size() < 10) return false;
    const auto components = static_cast<std::size_t>(static_cast<unsigned char>(rest[9]));
    return rest.size() == 10 + 3 * components + end.size() && rest.ends_with(end);
}

std::optional<Digest> stands_for(std::string_view jpeg) {
    if (!is_hollow_jpeg(jpeg) || !jpeg.substr(start.size()).starts_with(comment)) return std::nullopt;
    Digest digest;
    const auto from = jpeg.begin() + static_cast<std::ptrdiff_t>(start.size() + comment.size());
    std::transform(from, from + digest_size, digest.bytes.begin(),
                   [](char c) { return static_cast<unsigned char>(c); });
    return digest;
}

}  // namespace rigdeed
