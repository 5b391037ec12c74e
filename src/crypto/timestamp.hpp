#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/bytes.hpp"
#include "crypto/certificate.hpp"

/// Timestamps (RFC 3161): an authority's word that something with this digest existed at a time.
namespace rigdeed::crypto {

struct Timestamp {
    std::int64_t at = 0;        ///< seconds since 1970-01-01 UTC, by the authority's clock
    std::int64_t accuracy = 0;  ///< seconds that it may be off, rounded up; 0 if the authority does not say
    CertificateFacts authority;
};

/// A token, or what is wrong with it.
struct TimestampFinding {
    std::string what;  ///< one sentence without a full stop; empty if all is well
    std::optional<Timestamp> timestamp;
};

/// Accepts a token over this SHA-256 digest in the one form we embed: nothing in it can differ without being noticed.
/// Its signature must fit its certificate, which must be for timestamps alone and valid at the time it states.
/// Never throws on hostile bytes. Who the authority is, it does not judge.
[[nodiscard]] TimestampFinding examine_timestamp(std::string_view token, const Digest& stamped);

struct TimestampRequest {
    Digest stamped;
    Bytes nonce;  ///< the content of a positive INTEGER
    Bytes der;    ///< TimeStampReq: version 1, imprint, nonce, and the authority's certificate wanted
};
[[nodiscard]] TimestampRequest make_timestamp_request(const Digest& stamped);

/// The token out of an authority's answer, in the form examine_timestamp accepts: with the authority's own certificate
/// only, and without what nothing signs. Throws Error if it was not granted or is not an answer to this request.
[[nodiscard]] Bytes read_timestamp_response(std::string_view response, const TimestampRequest& request);

/// Asks the authority at this address, over plain HTTP: the token is signed, so the way need not be.
[[nodiscard]] Bytes ask_timestamp(const std::string& url, const Digest& stamped);

}  // namespace rigdeed::crypto
