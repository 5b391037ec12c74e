// What a timestamp server may answer: 32 bytes of digest, 8 of nonce, then a response. What is accepted must be a token
// that is accepted again in the same form, and refused for another digest.
#include <algorithm>
#include <cstdint>
#include <string_view>

#include "base/error.hpp"
#include "crypto/timestamp.hpp"

using namespace rigdeed;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    constexpr std::size_t nonce_size = 8;
    crypto::TimestampRequest request;
    const std::size_t digest_size = request.stamped.bytes.size(), head = digest_size + nonce_size;
    if (size < head) return 0;
    std::copy(bytes, bytes + digest_size, request.stamped.bytes.begin());
    request.nonce.assign(bytes + digest_size, bytes + head);
    Bytes token;
    try {
        token = crypto::read_timestamp_response({reinterpret_cast<const char*>(bytes) + head, size - head}, request);
    } catch (const Error&) { return 0; }
    if (!crypto::examine_timestamp(as_text(token), request.stamped).timestamp) __builtin_trap();
    request.stamped.bytes[0] ^= 1;
    if (crypto::examine_timestamp(as_text(token), request.stamped).timestamp) __builtin_trap();
    return 0;
}
