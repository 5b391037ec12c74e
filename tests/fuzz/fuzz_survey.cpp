// The survey reader: any bytes are a survey or a list of problems.
#include <cstdint>
#include <string>

#include "survey/read_survey.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(bytes), size);
    const auto [survey, problems] = rigdeed::survey::read_survey(text, "survey.xml");
    if (survey.has_value() != problems.empty()) __builtin_trap();
    return 0;
}
