#include "trade/wording.hpp"

#include "base/error.hpp"

namespace rigdeed::trade {

const std::string& Wording::operator()(std::string_view key) const {
    const auto found = words_.find(key);
    if (found == words_.end()) throw Error("no wording for " + in_quotes(key), "wording/en.xml", {}, ExitCode::bug);
    return found->second;
}

std::string Wording::count(std::string_view key, std::size_t n) const {
    const std::string form = std::string(key) + (n == 1 ? ".one" : ".many");
    return (*this)(form, {{"n", std::to_string(n)}});
}

}  // namespace rigdeed::trade
