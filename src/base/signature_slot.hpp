#pragma once

#include <cstddef>

namespace rigdeed {

/// Where in a rendered PDF the seal goes. Offsets count bytes from the start of the file.
/// At `byte_range` stand "[0 0000000000 0000000000 0000000000]"; the three ten-digit numbers are filled in.
/// At `contents` stands "<", then `hex_digits` zeros, then ">".
struct SignatureSlot {
    std::size_t byte_range = 0;
    std::size_t contents = 0;
    std::size_t hex_digits = 0;
};

}  // namespace rigdeed
