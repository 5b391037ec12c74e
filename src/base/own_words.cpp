#include "base/own_words.hpp"

namespace rigdeed {
namespace {

constexpr std::string_view begin = "\xEE\x80\x80", end = "\xEE\x80\x81";  // the two in UTF-8

}  // namespace

std::string as_own_words(std::string_view text) {
    if (text.empty() || text == ".") return std::string(text);
    const std::string_view stop = text.ends_with('.') ? text.substr(text.size() - 1) : std::string_view();
    text.remove_suffix(stop.size());
    return std::string(begin) + std::string(text) + std::string(end) + std::string(stop);
}

std::string without_own_words_marks(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size();) {
        const std::string_view three = text.substr(i, begin.size());
        if (three == begin || three == end) i += begin.size();
        else plain += text[i++];
    }
    return plain;
}

bool own_words_open(std::string_view text, bool open) {
    const auto first = text.rfind(begin), last = text.rfind(end);
    if (first == std::string_view::npos && last == std::string_view::npos) return open;
    if (last == std::string_view::npos) return true;
    return first != std::string_view::npos && first > last;
}

}  // namespace rigdeed
