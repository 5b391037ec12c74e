// The photo register: every row of what can be read has a name.
#include <cstdint>
#include <string_view>

#include "verify/photos.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const auto photos = rigdeed::verify::read_register({reinterpret_cast<const char*>(bytes), size});
    if (!photos) return 0;
    for (const auto& photo : *photos)
        if (photo.file.empty()) __builtin_trap();
    return 0;
}
