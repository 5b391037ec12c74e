#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"

/// Facts as bytes between two processes, and back. One list of fields serves for writing and for reading: numbers are
/// eight bytes, texts and lists have their size in front. What is read is read as strictly as a file from outside.
namespace rigdeed {

inline constexpr std::uint64_t any_number = ~std::uint64_t{0};

class ArchiveWriter {
 public:
    void number(std::uint64_t value) {
        for (int i = 0; i < 8; ++i) bytes.push_back(static_cast<char>(value >> (8 * i) & 0xFF));
    }
    template <class T>
    void whole(T& value, std::uint64_t) {
        number(static_cast<std::uint64_t>(value));
    }
    void text(std::string& value) {
        number(value.size());
        bytes += value;
    }
    void block(Bytes& value) {
        number(value.size());
        bytes += as_text(value);
    }
    template <class T, class Each>
    void list(std::vector<T>& items, Each each) {
        number(items.size());
        for (T& item : items) each(item);
    }
    template <class T, class Each>
    void maybe(std::optional<T>& item, Each each) {
        number(item.has_value());
        if (item) each(*item);
    }

    std::string bytes;
};

class ArchiveReader {
 public:
    explicit ArchiveReader(std::string_view bytes) : rest(bytes) {}

    std::uint64_t number(std::uint64_t most) {
        std::uint64_t value = 0;
        if (rest.size() < 8) failed = true;
        for (std::size_t i = 0; i < 8 && !failed; ++i)
            value |= static_cast<std::uint64_t>(static_cast<unsigned char>(rest[i])) << (8 * i);
        if (value > most) failed = true;
        if (failed) return 0;
        rest.remove_prefix(8);
        return value;
    }
    template <class T>
    void whole(T& value, std::uint64_t most) {
        value = static_cast<T>(number(most));
    }
    std::string_view piece() {
        const auto size = static_cast<std::size_t>(number(rest.size()));
        if (size > rest.size()) failed = true;
        if (failed) return {};
        const std::string_view taken = rest.substr(0, size);
        rest.remove_prefix(size);
        return taken;
    }
    void text(std::string& value) { value = piece(); }
    void block(Bytes& value) { value = to_bytes(piece()); }
    template <class T, class Each>
    void list(std::vector<T>& items, Each each) {
        const std::uint64_t count = number(rest.size());
        for (std::uint64_t i = 0; i < count && !failed; ++i) each(items.emplace_back());
    }
    template <class T, class Each>
    void maybe(std::optional<T>& item, Each each) {
        if (number(1) == 1) each(item.emplace());
    }
    /// Everything was there, and nothing more.
    [[nodiscard]] bool ended_well() const { return !failed && rest.empty(); }

    std::string_view rest;
    bool failed = false;
};

/// A digest, in whichever direction.
template <class Archive>
void digest_field(Archive& archive, Digest& digest) {
    for (unsigned char& byte : digest.bytes) archive.whole(byte, 255);
}

}  // namespace rigdeed
