// The reader of the PDF's table, objects and roles, and the comparison of two of them.
#include <cstdint>
#include <string_view>

#include "verify/compare.hpp"
#include "verify/schema.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const std::string_view file(reinterpret_cast<const char*>(bytes), size);
    (void)rigdeed::verify::first_difference(file, file);
    return 0;
}
