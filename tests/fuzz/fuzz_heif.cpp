// What a telephone's photo may be: any bytes give a photo or its trouble. In the program this runs in a confined child.
#include <cstdint>

#include "evidence/heif.hpp"

using namespace rigdeed;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static const bool prepared = (evidence::prepare_heif(), true);
    evidence::Photo photo;
    evidence::take_heif_apart(Bytes(bytes, bytes + size), {64, nullptr, 0}, photo);
    if (!prepared || photo.usable() != (photo.print.jpeg != nullptr)) __builtin_trap();
    return 0;
}
