// Own templates as a report carries them: they are rules and words that can be used, or an error.
#include <cstdint>
#include <string_view>

#include "base/error.hpp"
#include "trade/own_templates.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const auto own = trade::read_carried({reinterpret_cast<const char*>(bytes), size});
    if (!own) return 0;
    if (trade::write_carried(*own).empty()) __builtin_trap();
    try {
        (void)trade::load_trade(*own);
    } catch (const Error& error) {
        if (error.code == ExitCode::bug) __builtin_trap();
    }
    return 0;
}
