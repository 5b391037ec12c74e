// Makes photos as a camera of 12 megapixels would write them: 4032 x 3024, 4:2:0, quality 90, about 4 MB, Exif first.
// Every file differs. What is in the picture is gradients under noise; the noise decides the size.
//
// usage: bench_photos FOLDER COUNT
// Writes FOLDER/P0001.jpg … with two threads; files that are there are kept.

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <thread>
#include <vector>

#include <jpeglib.h>

namespace {

constexpr int width = 4032;
constexpr int height = 3024;
constexpr int quality = 90;
constexpr double noise = 7.5;  // standard deviation, of 255

/// A TIFF block, little-endian, written field by field (CIPA DC-008).
class Tiff {
 public:
    struct Field {
        std::uint16_t tag, type;
        std::uint32_t count;
        std::string value;
    };
    static std::string number(std::uint64_t value, int bytes) {
        std::string text;
        for (int i = 0; i < bytes; ++i) text += static_cast<char>(value >> (8 * i) & 0xFF);
        return text;
    }
    static Field text(std::uint16_t tag, const std::string& value) {
        return {tag, 2, static_cast<std::uint32_t>(value.size() + 1), value + '\0'};
    }
    static Field whole(std::uint16_t tag, std::uint16_t value) { return {tag, 3, 1, number(value, 2)}; }
    static Field ratio(std::uint16_t tag, std::uint32_t above, std::uint32_t below) {
        return {tag, 5, 1, number(above, 4) + number(below, 4)};
    }

    /// One directory at `offset`; what does not fit into four bytes follows it.
    static std::string directory(const std::vector<Field>& fields, std::size_t offset) {
        std::string entries = number(fields.size(), 2), values;
        const std::size_t after = offset + 2 + fields.size() * 12 + 4;
        for (const Field& field : fields) {
            entries += number(field.tag, 2) + number(field.type, 2) + number(field.count, 4);
            if (field.value.size() <= 4) {
                entries += field.value + std::string(4 - field.value.size(), '\0');
                continue;
            }
            entries += number(after + values.size(), 4);
            values += field.value + std::string(field.value.size() % 2, '\0');
        }
        return entries + number(0, 4) + values;
    }
};

std::string two(int value) { return (value < 10 ? "0" : "") + std::to_string(value); }

/// Photos are taken 40 s apart, from nine o'clock on; every fourth stands upright.
std::string exif(int index) {
    const int seconds = 9 * 3600 + index * 40;
    const std::string when =
        "2026:10:03 " + two(seconds / 3600) + ":" + two(seconds / 60 % 60) + ":" + two(seconds % 60);
    std::vector<Tiff::Field> main{
        Tiff::text(0x010F, "Lumen"), Tiff::text(0x0110, "Lumen K12"), Tiff::whole(0x0112, index % 4 == 3 ? 6 : 1),
        Tiff::text(0x0131, "1.04"),  Tiff::text(0x0132, when),        {0x8769, 4, 1, Tiff::number(0, 4)}};
    const std::vector<Tiff::Field> photo{
        Tiff::ratio(0x829A, 1, 250),  Tiff::ratio(0x829D, 28, 10), Tiff::whole(0x8827, 200),
        Tiff::text(0x9003, when),     Tiff::text(0x9004, when),    Tiff::text(0x9011, "+02:00"),
        Tiff::ratio(0x9206, 35, 100), Tiff::whole(0x9209, 1),      Tiff::ratio(0x920A, 61, 10),
        Tiff::text(0x9291, "37"),     Tiff::whole(0xA405, 28)};
    const std::size_t second = 8 + Tiff::directory(main, 8).size();
    main.back().value = Tiff::number(second, 4);
    return std::string("Exif\0\0", 6) + "II*" + '\0' + Tiff::number(8, 4) + Tiff::directory(main, 8) +
           Tiff::directory(photo, second);
}

/// Normal noise out of a table, walked in an order of its own for every photo.
class Noise {
 public:
    explicit Noise(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15U + 1) {}
    int next() {
        state_ ^= state_ << 13, state_ ^= state_ >> 7, state_ ^= state_ << 17;
        return table()[state_ >> 52];
    }

 private:
    static const std::vector<int>& table() {
        static const std::vector<int> made = [] {
            std::vector<int> values(4096);
            for (std::size_t i = 0; i < values.size(); ++i) {
                const double u = (static_cast<double>(i) + 0.5) / 4096,
                             v = static_cast<double>(i * 2654435761U % 4096) / 4096;
                values[i] = static_cast<int>(std::lround(noise * std::sqrt(-2 * std::log(u)) * std::cos(6.283185 * v)));
            }
            return values;
        }();
        return made;
    }
    std::uint64_t state_;
};

void fill_row(std::vector<unsigned char>& row, int y, int index, Noise& grain) {
    for (int x = 0; x < width; ++x) {
        const int light = grain.next();
        const int base = 60 + (x * (3 + index % 5) / 160 + y * (2 + index % 7) / 200) % 140;
        for (int channel = 0; channel < 3; ++channel) {
            const int value = base + channel * 12 + light + light * channel / 8;
            row[static_cast<std::size_t>(x * 3 + channel)] = static_cast<unsigned char>(value < 0     ? 0
                                                                                        : value > 255 ? 255
                                                                                                      : value);
        }
    }
}

std::string photo(int index) {
    jpeg_compress_struct encoder{};
    jpeg_error_mgr errors{};
    encoder.err = jpeg_std_error(&errors);
    jpeg_create_compress(&encoder);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&encoder, &buffer, &size);
    encoder.image_width = width, encoder.image_height = height;
    encoder.input_components = 3, encoder.in_color_space = JCS_RGB;
    jpeg_set_defaults(&encoder);
    jpeg_set_quality(&encoder, quality, TRUE);
    jpeg_start_compress(&encoder, TRUE);
    const std::string facts = exif(index);
    jpeg_write_marker(&encoder, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(facts.data()),
                      static_cast<unsigned>(facts.size()));
    Noise grain(static_cast<std::uint64_t>(index));
    std::vector<unsigned char> row(width * 3);
    for (int y = 0; y < height; ++y) {
        fill_row(row, y, index, grain);
        JSAMPROW rows = row.data();
        jpeg_write_scanlines(&encoder, &rows, 1);
    }
    jpeg_finish_compress(&encoder);
    jpeg_destroy_compress(&encoder);
    std::string bytes(reinterpret_cast<char*>(buffer), size);
    std::free(buffer);
    return bytes;
}

void write_missing(const std::filesystem::path& folder, int index) {
    std::string number = std::to_string(index);
    number.insert(0, 4 - number.size(), '0');
    const auto path = folder / ("P" + number + ".jpg");
    if (std::filesystem::exists(path)) return;
    const std::filesystem::path unfinished = path.string() + ".part";
    std::ofstream(unfinished, std::ios::binary) << photo(index);
    std::filesystem::rename(unfinished, path);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) return std::cerr << "usage: bench_photos FOLDER COUNT\n", 2;
    const std::filesystem::path folder = argv[1];
    const int count = std::atoi(argv[2]);
    const auto every_second = [&](int first) {
        for (int index = first; index <= count; index += 2) write_missing(folder, index);
    };
    std::jthread other(every_second, 2);
    every_second(1);
}
