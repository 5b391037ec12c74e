#include "base/resources.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed {

std::string_view resource(std::string_view name) {
    for (const Resource& one : resources())
        if (one.name == name) return one.bytes;
    throw Error("no built-in file " + in_quotes(name), {}, {}, ExitCode::bug);
}

}  // namespace rigdeed
