// Grids of tiles, as telephones store them (ISO/IEC 23008-12, 6.6.2.3), built box by box (ISO/IEC 14496-12).
#include <doctest/doctest.h>

#include <chrono>
#include <optional>
#include <vector>

#include "evidence/heif.hpp"
#include "evidence/sample_heif.hpp"

using namespace rigdeed;
using namespace rigdeed::evidence;

namespace {

std::string number(std::uint64_t value, int bytes) {
    std::string text;
    for (int i = bytes - 1; i >= 0; --i) text += static_cast<char>(value >> (8 * i) & 0xFF);
    return text;
}

std::string box(const std::string& name, const std::string& content) {
    return number(content.size() + 8, 4) + name + content;
}

/// One with version and flags.
std::string full_box(const std::string& name, int version, int flags, const std::string& content) {
    return box(name,
               number(static_cast<std::uint64_t>(version), 1) + number(static_cast<std::uint64_t>(flags), 3) + content);
}

std::string box_of(const std::string& file, const std::string& name) {
    const std::size_t at = file.find(name);
    REQUIRE(at != std::string::npos);
    std::size_t size = 0;
    for (std::size_t i = 4; i > 0; --i) size = size << 8 | static_cast<unsigned char>(file[at - i]);
    return file.substr(at - 4, size);
}

struct Item {
    int id;
    std::string kind;             ///< "grid", "hvc1"
    std::vector<int> made_of;     ///< ids of its tiles
    std::vector<int> properties;  ///< from 1
    std::string content;
};

/// The first item is the picture; `sizes` are the picture sizes among the properties, behind the decoder's own.
std::string container(const std::vector<Item>& items, const std::string& decoder,
                      const std::vector<std::pair<std::uint32_t, std::uint32_t>>& sizes) {
    std::string properties = decoder, infos, references, links, places, content;
    for (const auto& [width, height] : sizes)
        properties += full_box("ispe", 0, 0, number(width, 4) + number(height, 4));
    for (const Item& item : items) {
        const std::string id = number(static_cast<std::uint64_t>(item.id), 2);
        infos += full_box("infe", 2, 0, id + number(0, 2) + item.kind + std::string(1, '\0'));
        if (!item.made_of.empty()) {
            std::string to;
            for (const int tile : item.made_of) to += number(static_cast<std::uint64_t>(tile), 2);
            references += box("dimg", id + number(item.made_of.size(), 2) + to);
        }
        links += id + number(item.properties.size(), 1);
        for (const int property : item.properties) links += number(static_cast<std::uint64_t>(property), 1);
        // Kept in the container itself (construction method 1).
        places += id + number(1, 2) + number(0, 2) + number(1, 2) + number(content.size(), 4) +
                  number(item.content.size(), 4);
        content += item.content;
    }
    const std::string count = number(items.size(), 2);
    const std::string meta =
        full_box("hdlr", 0, 0, number(0, 4) + "pict" + std::string(13, '\0')) +
        full_box("pitm", 0, 0, number(static_cast<std::uint64_t>(items.front().id), 2)) +
        full_box("iloc", 1, 0, std::string("\x44\0", 2) + count + places) + full_box("iinf", 0, 0, count + infos) +
        full_box("iref", 0, 0, references) +
        box("iprp", box("ipco", properties) + full_box("ipma", 0, 0, number(items.size(), 4) + links)) +
        box("idat", content);
    return box("ftyp", std::string("heic") + number(0, 4) + "mif1heic") + full_box("meta", 0, 0, meta);
}

/// rows and columns less one; the size of the whole in 32 bits.
std::string grid(unsigned rows, unsigned columns, std::uint32_t width, std::uint32_t height) {
    return std::string("\0\x01", 2) + number(rows, 1) + number(columns, 1) + number(width, 4) + number(height, 4);
}

/// A tile of 128 by 96 and its decoder's property, out of a file of the library's own encoder.
struct Tile {
    std::string decoder, data;
};
const Tile& tile() {
    static const Tile made = [] {
        const Bytes file = sample::heic(128, 96, [](int x, int y, unsigned char* rgb) {
            rgb[0] = static_cast<unsigned char>(2 * x), rgb[1] = static_cast<unsigned char>(2 * y), rgb[2] = 90;
        });
        const std::string text(as_text(file));
        return Tile{box_of(text, "hvcC"), box_of(text, "mdat").substr(8)};
    }();
    return made;
}

/// The properties are: 1 decoder, 2 the tile's size, 3 the whole's.
std::string picture(unsigned rows, unsigned columns, std::uint32_t width, std::uint32_t height, std::size_t tiles) {
    return container({{1, "grid", std::vector<int>(tiles, 2), {3}, grid(rows, columns, width, height)},
                      {2, "hvc1", {}, {1, 2}, tile().data}},
                     tile().decoder, {{128, 96}, {width, height}});
}

Photo taken(const std::string& text) {
    const Bytes file = to_bytes(text);
    prepare_heif();
    Photo photo;
    take_heifs_apart({{&file, {128, nullptr, 0}, &photo}});
    return photo;
}

}  // namespace

TEST_CASE("a grid of tiles is put together") {
    const Photo photo = taken(picture(1, 2, 384, 192, 6));
    REQUIRE(photo.usable());
    CHECK(photo.width == 384);
    CHECK(photo.height == 192);
    CHECK(photo.print.jpeg);
}

TEST_CASE("a hostile grid is refused, and soon") {
    const auto grids = [](const std::vector<Item>& items) {
        return container(items, tile().decoder, {{128, 96}, {256, 192}});
    };
    const std::string four = grid(1, 1, 256, 192);
    std::vector<int> all_of_two(65535, 2);
    const std::vector<std::pair<const char*, std::string>> hostile{
        {"40 000 tiles", picture(199, 199, 25600, 19200, 40000)},
        {"as many tiles as there can be", picture(255, 255, 32768, 24576, 65535)},
        {"more than its tiles cover", picture(1, 1, 60000, 60000, 4)},
        {"4 billion by 4 billion", picture(1, 1, 0xFFFFFFFF, 0xFFFFFFFF, 4)},
        {"no size", picture(1, 1, 0, 0, 4)},
        {"fewer tiles than places", picture(1, 1, 256, 192, 3)},
        {"no tiles", picture(1, 1, 256, 192, 0)},
        {"its content cut short",
         grids({{1, "grid", {2, 2, 2, 2}, {3}, four.substr(0, 5)}, {2, "hvc1", {}, {1, 2}, tile().data}})},
        {"tiles that are not there",
         grids({{1, "grid", {7, 7, 7, 7}, {3}, four}, {2, "hvc1", {}, {1, 2}, tile().data}})},
        {"made of itself", grids({{1, "grid", {1, 1, 1, 1}, {3}, four}})},
        {"two made of each other", grids({{1, "grid", {2, 2, 2, 2}, {3}, four}, {2, "grid", {1, 1, 1, 1}, {3}, four}})},
        {"a tile whose data is cut short",
         grids({{1, "grid", {2, 2, 2, 2}, {3}, four}, {2, "hvc1", {}, {1, 2}, tile().data.substr(0, 20)}})},
        {"a tile without a decoder", grids({{1, "grid", {2, 2, 2, 2}, {3}, four}, {2, "hvc1", {}, {2}, tile().data}})}};
    const auto began = std::chrono::steady_clock::now();
    for (const auto& [what, file] : hostile) {
        const Photo photo = taken(file);
        CHECK_MESSAGE(!photo.usable(), what);
        CHECK_MESSAGE(photo.trouble.any(), what);
        CHECK_MESSAGE(!photo.print.jpeg, what);
    }
    // Grids of grids, each of four of the next: 4 to the 12th tiles out of a small file.
    std::vector<Item> nested;
    for (int i = 1; i <= 12; ++i) nested.push_back({i, "grid", std::vector<int>(4, i + 1), {3}, four});
    nested.push_back({13, "hvc1", {}, {1, 2}, tile().data});
    const Photo photo = taken(grids(nested));
    CHECK(photo.usable() == (photo.print.jpeg != nullptr));
    CHECK(std::chrono::steady_clock::now() - began < std::chrono::seconds(120));  // the child's own limit is 20 s
}
