#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "crypto/cms.hpp"

/// Changes what a sealed report carries and seals it again, as whoever holds a key can.
namespace rigdeed::sample {

/// The report with this text in the place of a carried file's ("issue.xml").
[[nodiscard]] std::string with_carried(std::string report, std::string_view name, std::string_view text);
/// A carried file's text.
[[nodiscard]] std::string carried_in(const std::string& report, std::string_view name);
/// The report with these bytes in the place of one of its pictures.
[[nodiscard]] std::string with_picture(std::string report, std::size_t number, std::string_view bytes);
[[nodiscard]] std::string picture_in(const std::string& report, std::size_t number);
/// The same seal without its timestamp, or with one: whoever does it needs no key.
[[nodiscard]] std::string without_timestamp(const std::string& report);
[[nodiscard]] std::string with_timestamp(const std::string& report, const crypto::Stamp& stamp);

}  // namespace rigdeed::sample
