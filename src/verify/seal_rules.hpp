#pragma once

#include <string>
#include <string_view>

#include "crypto/cms.hpp"
#include "verify/document.hpp"
#include "verify/schema.hpp"
#include "verify/sums.hpp"

namespace rigdeed::verify {

/// The one signature of a report, and where its hole is. The rules below fill it in one after the other;
/// each returns what is wrong, or nothing.
struct Seal {
    const Dict* dictionary = nullptr;
    std::size_t hole_begin = 0;  ///< of "<"
    std::size_t hole_end = 0;    ///< after ">"
    std::string cms;             ///< DER
};

/// One field, one signature; the field's value, the certification and the signature are one object, and the field
/// stands on the first page.
[[nodiscard]] std::string find_seal(const Document& document, const Roles& roles, Seal& seal);
/// ISO 32000-1, 12.8.1: the byte range is the whole file but the hexadecimal digits of the signature.
[[nodiscard]] std::string check_byte_range(const Document& document, Seal& seal);
/// The digits are one DER object, and zeros.
[[nodiscard]] std::string check_padding(Seal& seal);
/// The cryptographic part.
[[nodiscard]] crypto::CmsFinding check_signature(const Sums& sums, const Seal& seal);

}  // namespace rigdeed::verify
