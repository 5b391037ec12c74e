// The walk over a JPEG's markers, and the Exif block in it.
#include <cstdint>

#include "evidence/exif.hpp"
#include "evidence/jpeg_structure.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static const bool prepared = (rigdeed::evidence::prepare_exif(), true);
    const rigdeed::Bytes file(bytes, bytes + size);
    const auto structure = rigdeed::evidence::read_structure(file);
    if (prepared) (void)rigdeed::evidence::read_exif(structure.exif);
    return 0;
}
