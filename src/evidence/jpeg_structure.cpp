#include "evidence/jpeg_structure.hpp"

#include <algorithm>
#include <array>
#include <cstring>

namespace rigdeed::evidence {
namespace {

struct Signature {
    std::size_t offset;
    std::string_view bytes;
    Why says;
};

constexpr std::array signatures{
    Signature{4, "ftypheic", Why::heic},
    Signature{4, "ftypheix", Why::heic},
    Signature{4, "ftypheim", Why::heic},
    Signature{4, "ftypheis", Why::heic},
    Signature{4, "ftyphevc", Why::heic},
    Signature{4, "ftyphevx", Why::heic},
    Signature{4, "ftypmif1", Why::heic},
    Signature{4, "ftypmsf1", Why::heic},
    Signature{4, "ftypavif", Why::avif},
    Signature{4, "ftyp", Why::media},
    Signature{0, "\x89PNG", Why::png},
    Signature{0, "GIF8", Why::gif},
    Signature{0, "RIFF", Why::riff},
    Signature{0, "II*", Why::tiff},
    Signature{0, std::string_view("MM\0*", 4), Why::tiff},
    Signature{0, "%PDF", Why::pdf},
};

Why foreign(std::string_view text) {
    if (text.empty()) return Why::empty;
    for (const Signature& one : signatures)
        if (text.size() > one.offset && text.substr(one.offset).starts_with(one.bytes)) return one.says;
    return Why::not_jpeg;
}

class Walker {
 public:
    explicit Walker(std::string_view text) : text_(text) {}

    JpegStructure run() {
        if (!text_.starts_with("\xFF\xD8\xFF")) {
            refuse(foreign(text_));
            return result_;
        }
        at_ = 2;
        while (!result_.trouble.any() && !ended_) segment();
        if (!result_.trouble.any() && result_.width == 0) refuse(Why::no_picture);
        if (!result_.trouble.any() && scans_ == 0) refuse(Why::no_data);
        return result_;
    }

 private:
    unsigned byte(std::size_t at) const { return static_cast<unsigned char>(text_[at]); }
    int word(std::size_t at) const { return static_cast<int>(byte(at) << 8 | byte(at + 1)); }
    void refuse(Why why, int number = 0) { result_.trouble = {why, number, {}, {}}; }

    void segment() {
        while (at_ < text_.size() && byte(at_) == 0xFF && at_ + 1 < text_.size() && byte(at_ + 1) == 0xFF)
            ++at_;  // fill bytes
        if (at_ + 2 > text_.size()) return refuse(Why::ends_early);
        if (byte(at_) != 0xFF) return refuse(Why::no_marker);
        const unsigned marker = byte(at_ + 1);
        at_ += 2;
        if (marker == 0xD9) {
            ended_ = true;
            if (first_scan_ > 0) result_.picture = text_.substr(first_scan_, at_ - first_scan_);
            return;
        }
        if (marker == 0xD8 || (marker >= 0xD0 && marker <= 0xD7) || marker == 0x01) return;
        if (at_ + 2 > text_.size()) return refuse(Why::ends_early);
        const auto length = static_cast<std::size_t>(word(at_));
        if (length < 2 || at_ + length > text_.size()) return refuse(Why::ends_early);
        const auto payload = text_.substr(at_ + 2, length - 2);
        const std::size_t payload_at = at_ + 2;
        at_ += length;
        if (marker == 0xE1 && result_.exif.empty() && payload.starts_with(std::string_view("Exif\0\0", 6)))
            result_.exif = payload.substr(6);
        if (marker == 0xE2) profile_piece(payload);
        if (marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC)
            frame(marker, payload, payload_at);
        if (marker == 0xDA && first_scan_ == 0) first_scan_ = at_;
        if (marker == 0xDA) scan();
    }

    /// Pieces are numbered from 1; only whole profiles in their right order count.
    void profile_piece(std::string_view payload) {
        static constexpr std::string_view name{"ICC_PROFILE\0", 12};
        static constexpr std::size_t largest = 4 * 1024 * 1024;
        if (!payload.starts_with(name) || payload.size() < name.size() + 2) return;
        const auto number = static_cast<unsigned char>(payload[name.size()]);
        const auto pieces = static_cast<unsigned char>(payload[name.size() + 1]);
        const std::string_view piece = payload.substr(name.size() + 2);
        profile_broken_ = profile_broken_ || number != ++profile_pieces_ || number > pieces ||
                          result_.profile.size() + piece.size() > largest;
        result_.profile.insert(result_.profile.end(), piece.begin(), piece.end());
        if (profile_broken_) result_.profile.clear();
    }

    void frame(unsigned marker, std::string_view payload, std::size_t at) {
        if (frames_++ > 0) return refuse(Why::two_pictures);
        result_.progressive = marker == 0xC2;
        if (marker > 0xC2) return refuse(marker >= 0xC9 ? Why::arithmetic : Why::lossless);
        if (payload.size() < 6) return refuse(Why::short_frame);
        if (byte(at) != 8) return refuse(Why::bits, static_cast<int>(byte(at)));
        result_.height = word(at + 1);
        result_.width = word(at + 3);
        result_.components = static_cast<int>(byte(at + 5));
        if (result_.components == 4) return refuse(Why::cmyk);
        if (result_.components != 1 && result_.components != 3) return refuse(Why::channels, result_.components);
        if (result_.width == 0 || result_.height == 0) return refuse(Why::no_size);
        const long long pixels = static_cast<long long>(result_.width) * result_.height;
        if (pixels > (result_.progressive ? most_held_pixels : most_pixels)) return refuse(Why::large_picture);
        if (result_.width < 16 || result_.height < 16) return refuse(Why::small_picture);
    }

    /// Skips the coded data: everything up to the next marker that is not RST or a stuffed zero.
    void scan() {
        const long long pixels = static_cast<long long>(result_.width) * result_.height;
        if (++scans_ > most_scans || pixels * scans_ > most_work) return refuse(Why::scans);
        while (at_ < text_.size()) {
            const void* found = std::memchr(text_.data() + at_, 0xFF, text_.size() - at_);
            if (found == nullptr) break;
            at_ = static_cast<std::size_t>(static_cast<const char*>(found) - text_.data());
            if (at_ + 1 >= text_.size()) break;
            const unsigned next = byte(at_ + 1);
            if (next != 0x00 && next != 0xFF && !(next >= 0xD0 && next <= 0xD7)) return;
            at_ += next == 0xFF ? 1 : 2;
        }
        refuse(Why::ends_inside);
    }

    std::string_view text_;
    std::size_t at_ = 0;
    int frames_ = 0;
    std::size_t first_scan_ = 0;  ///< behind its header; 0: none yet
    int scans_ = 0;
    bool ended_ = false;
    unsigned profile_pieces_ = 0;
    bool profile_broken_ = false;
    JpegStructure result_;
};

}  // namespace

JpegStructure read_structure(const Bytes& bytes) { return Walker(as_text(bytes)).run(); }

}  // namespace rigdeed::evidence
