#pragma once

#include <string_view>

/// Object identifiers as they stand in DER: RFC 5652, RFC 5035, RFC 3161, RFC 5754, RFC 8017.
namespace rigdeed::crypto::oid {

inline constexpr std::string_view data{"\x2A\x86\x48\x86\xF7\x0D\x01\x07\x01", 9};
inline constexpr std::string_view signed_data{"\x2A\x86\x48\x86\xF7\x0D\x01\x07\x02", 9};
inline constexpr std::string_view content_type{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x03", 9};
inline constexpr std::string_view message_digest{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x04", 9};
inline constexpr std::string_view tst_info{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x01\x04", 11};
inline constexpr std::string_view signing_certificate{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x0C", 11};
inline constexpr std::string_view timestamp{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x0E", 11};
inline constexpr std::string_view signing_certificate_v2{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x2F", 11};

inline constexpr std::string_view sha256{"\x60\x86\x48\x01\x65\x03\x04\x02\x01", 9};
inline constexpr std::string_view sha384{"\x60\x86\x48\x01\x65\x03\x04\x02\x02", 9};
inline constexpr std::string_view sha512{"\x60\x86\x48\x01\x65\x03\x04\x02\x03", 9};

inline constexpr std::string_view rsa{"\x2A\x86\x48\x86\xF7\x0D\x01\x01\x01", 9};
inline constexpr std::string_view rsa_with_sha256{"\x2A\x86\x48\x86\xF7\x0D\x01\x01\x0B", 9};
inline constexpr std::string_view rsa_with_sha384{"\x2A\x86\x48\x86\xF7\x0D\x01\x01\x0C", 9};
inline constexpr std::string_view rsa_with_sha512{"\x2A\x86\x48\x86\xF7\x0D\x01\x01\x0D", 9};
inline constexpr std::string_view ecdsa_with_sha256{"\x2A\x86\x48\xCE\x3D\x04\x03\x02", 8};
inline constexpr std::string_view ecdsa_with_sha384{"\x2A\x86\x48\xCE\x3D\x04\x03\x03", 8};
inline constexpr std::string_view ecdsa_with_sha512{"\x2A\x86\x48\xCE\x3D\x04\x03\x04", 8};

}  // namespace rigdeed::crypto::oid
