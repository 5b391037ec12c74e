// The issue record: what can be read is written again in the form in which it is read again.
#include <cstdint>
#include <string_view>

#include "record/record.hpp"

using namespace rigdeed;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const auto reading = record::read_record({reinterpret_cast<const char*>(bytes), size});
    if (!reading) return 0;
    (void)record::printed_pictures(*reading);
    const std::string written = record::write_record(reading->made, reading->evidence);
    const auto again = record::read_record(written);
    if (!again || record::write_record(again->made, again->evidence) != written) __builtin_trap();
    return 0;
}
