// The signature alone: 32 bytes of digest, then a CMS. What is accepted must be refused for another digest.
#include <algorithm>
#include <cstdint>
#include <string_view>

#include "crypto/cms.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    rigdeed::Digest content;
    if (size < content.bytes.size()) return 0;
    std::copy(bytes, bytes + content.bytes.size(), content.bytes.begin());
    const std::string_view der(reinterpret_cast<const char*>(bytes) + content.bytes.size(),
                               size - content.bytes.size());
    if (rigdeed::crypto::examine_cms(der, content).fault != rigdeed::crypto::CmsFault::none) return 0;
    content.bytes[0] ^= 1;
    if (rigdeed::crypto::examine_cms(der, content).fault == rigdeed::crypto::CmsFault::none) __builtin_trap();
    return 0;
}
