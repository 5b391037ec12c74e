// The whole of verify. Whatever is accepted must be refused with a byte more.
#include <cstdint>
#include <string>

#include "verify/verify.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    std::string file(reinterpret_cast<const char*>(bytes), size);
    if (!rigdeed::verify::verify(file, {}).intact()) return 0;
    file += '\n';
    if (rigdeed::verify::verify(file, {}).intact()) __builtin_trap();
    return 0;
}
