#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// As much of DER (ITU-T X.690) as a CMS needs.
namespace rigdeed::crypto::der {

enum Tag : unsigned char {
    boolean = 0x01,
    integer = 0x02,
    bit_string = 0x03,
    octets = 0x04,
    null = 0x05,
    oid = 0x06,
    utf8 = 0x0C,
    generalized_time = 0x18,
    sequence = 0x30,
    set = 0x31,
    context0 = 0xA0,
    context1 = 0xA1,
    context4 = 0xA4,
};

/// The content of an integer that says version 1.
inline constexpr std::string_view version_1{"\x01", 1};

/// Tag, length in its shortest form, content.
[[nodiscard]] std::string element(Tag tag, std::string_view content);

/// One element as found: `whole` with tag and length, `content` without.
struct Element {
    unsigned char tag = 0;
    std::string_view content;
    std::string_view whole;
};

/// All elements of a content; nothing if it is not DER: long-form tags, lengths not in shortest form, or cut short.
[[nodiscard]] std::optional<std::vector<Element>> elements(std::string_view content);
/// The one element these bytes are; nothing if they are anything else or its tag is another.
[[nodiscard]] std::optional<Element> only(std::string_view bytes, Tag tag);

}  // namespace rigdeed::crypto::der
