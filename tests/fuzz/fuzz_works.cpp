// Works files, and the reports of before that a paper carries: any bytes are one of them or a list of problems.
#include <cstdint>
#include <string>

#include "works/works.hpp"
#include "years/since.hpp"

using namespace rigdeed;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(bytes), size);
    const auto [works, problems] = works::read_works(text, "works.xml");
    if (works.has_value() != problems.empty()) __builtin_trap();
    if (works) {
        if (!works::is_works_file(text)) __builtin_trap();
        for (const works::Item& item : works->items)
            if (item.number < 1 || works->item(item.number) != &item) __builtin_trap();
        works::WorksDone form = *works;  // as start writes one: without answers, which are the rigger's
        const works::Reading again = works::read_works(works::write_works(form), "works.xml");
        if (!again.works || again.works->items.size() != works->items.size()) __builtin_trap();
    }
    if (const auto before = years::read_before(text)) {
        const auto again = years::read_before(years::write_before(*before));
        if (!again || *again != *before) __builtin_trap();
    }
    return 0;
}
