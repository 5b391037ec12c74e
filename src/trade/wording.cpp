#include "trade/wording.hpp"

#include "base/error.hpp"
#include "base/quantity.hpp"

namespace rigdeed::trade {

const std::string& Wording::operator()(std::string_view key) const {
    const auto found = words_.find(key);
    if (found == words_.end())
        throw Error("no wording for " + in_quotes(key), "wording/" + language_ + ".xml", {}, ExitCode::bug);
    return found->second;
}

std::string Wording::count(std::string_view key, std::size_t n) const {
    const std::string form = std::string(key) + (n == 1 ? ".one" : ".many");
    return (*this)(form, {{"n", std::to_string(n)}});
}

std::string Wording::number(double value, int decimals) const { return numbers(fixed(value, decimals)); }

std::string Wording::numbers(std::string_view text) const {
    const std::string& sign = (*this)("form.decimal-sign");
    const auto digit = [&](std::size_t at) { return at < text.size() && text[at] >= '0' && text[at] <= '9'; };
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text[i] == '-' && digit(i + 1) && (i == 0 || text[i - 1] == ' ' || text[i - 1] == '(')) result += "\u2212";
        else if (text[i] == '.' && i > 0 && digit(i - 1) && digit(i + 1)) result += sign;
        else result += text[i];
    return result;
}

std::string Wording::date(const Date& date) const {
    const std::string month = (*this)("form.month." + std::to_string(date.month));
    const std::string day = std::to_string(date.day);
    return (*this)(date.day == 1 ? "form.date.first" : "form.date",
                   {{"day", day}, {"month", month}, {"year", std::to_string(date.year)}});
}

std::string Wording::date(const PartDate& part) const {
    const std::string year = std::to_string(part.year);
    if (!part.month) return year;
    if (part.day) return date(Date{part.year, *part.month, *part.day});
    return (*this)("form.date.month",
                   {{"month", (*this)("form.month." + std::to_string(*part.month))}, {"year", year}});
}

std::string Wording::joined(const std::vector<std::string>& parts, std::string_view last) const {
    if (parts.size() < 2) return join(parts, "");
    return (*this)(last, {{"first", join({parts.begin(), parts.end() - 1}, ", ")}, {"last", parts.back()}});
}

std::string Wording::listed(const std::vector<std::string>& parts) const { return joined(parts, "form.and"); }
std::string Wording::either(const std::vector<std::string>& parts) const { return joined(parts, "form.or"); }

}  // namespace rigdeed::trade
