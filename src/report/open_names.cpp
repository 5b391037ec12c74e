#include "report/open_names.hpp"

#include "base/text.hpp"

namespace rigdeed::report {
namespace {

constexpr const char* a_stay = "\1";
constexpr const char* a_stay_first = "\2";  ///< with a capital
constexpr const char* a_fitting = "\3";

void replace_all(std::string& text, const std::string& what, const std::string& by) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
}

}  // namespace

std::string names_open(std::string text, const assessment::FittingVerdict& one, const trade::Trade& trade) {
    replace_all(text, one.name, a_fitting);
    if (one.stay == nullptr) return text;
    const std::string stay = trade::stay_name(*one.stay, trade);
    replace_all(text, stay, a_stay);
    replace_all(text, capitalised(stay), a_stay_first);
    return text;
}

std::string names_filled(std::string text, const std::vector<std::string>& stays,
                         const std::vector<std::string>& fittings, const trade::Wording& words) {
    replace_all(text, a_stay_first, capitalised(words.listed(stays)));
    replace_all(text, a_stay, words.listed(stays));
    replace_all(text, a_fitting, words.listed(fittings));
    return text;
}

}  // namespace rigdeed::report
