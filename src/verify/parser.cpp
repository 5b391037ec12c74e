#include "verify/parser.hpp"

#include <algorithm>
#include <charconv>
#include <iterator>
#include <set>

#include "verify/verify.hpp"

namespace rigdeed::verify {
namespace {

static_assert(largest_report < std::uint64_t{1} << 32, "offsets of objects have 32 bits");

constexpr int deepest = 12;
constexpr std::size_t most_keys = 1000;
constexpr std::size_t most_values = 2'500'000;  // of a whole file; a report of 62 pages has about 60 000
constexpr std::size_t few_keys = 16;            // up to so many are compared one by one
constexpr std::size_t largest_number = 9'999'999'999;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool is_name_character(char c) {
    return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '+' || c == '-' || c == '.' ||
           c == '_';
}

int hex_value(char c, bool lower_case) {
    if (is_digit(c)) return c - '0';
    const char first = lower_case ? 'a' : 'A';
    return c >= first && c < first + 6 ? c - first + 10 : -1;
}

// All items of one vector, those from `first` on, as a vector of their own that is no larger than they are.
template <class Item>
std::vector<Item> taken(std::vector<Item>& from, std::size_t first) {
    const auto begin = from.begin() + static_cast<std::ptrdiff_t>(first);
    std::vector<Item> items(std::make_move_iterator(begin), std::make_move_iterator(from.end()));
    from.erase(begin, from.end());
    return items;
}

}  // namespace

void Parser::fail(const std::string& what) {
    if (!failed()) fault_ = what + " at byte " + std::to_string(at_);
    at_ = bytes_.size();
}

void Parser::skip(std::size_t count) {
    if (count > bytes_.size() - at_) return fail("the file ends too early");
    at_ += count;
}

void Parser::expect(std::string_view literal) {
    if (!here(literal)) return fail("something else stands where a report has its next part");
    at_ += literal.size();
}

std::size_t Parser::number() {
    std::size_t value = 0;
    const std::size_t start = at_;
    for (; is_digit(peek()); ++at_) {
        value = value * 10 + static_cast<std::size_t>(peek() - '0');
        if (value > largest_number) return fail("a number is too large"), 0;
    }
    if (at_ == start || (bytes_[start] == '0' && at_ - start > 1)) return fail("a number is not written plainly"), 0;
    return value;
}

std::size_t Parser::ten_digits() {
    std::size_t value = 0;
    for (int i = 0; i < 10; ++i, ++at_) {
        if (!is_digit(peek())) return fail("a number does not have ten digits"), 0;
        value = value * 10 + static_cast<std::size_t>(peek() - '0');
    }
    return value;
}

Object Parser::object() {
    Object made;
    value({}, made);
    return made;
}

void Parser::value(std::string_view key, Object& to) {
    to.begin = static_cast<std::uint32_t>(at_);
    if (++depth_ > deepest) fail("objects are nested too deeply");
    if (++values_ > most_values) fail("there is more in it than in a report");
    const char c = peek();
    if (failed()) return;
    if (key == "ByteRange") to.value = byte_range();
    else if (c == '<' && here("<<")) to.value = dict();
    // A signature stands in lower case; the words of a link, which no CMS begins like, as every text in upper case.
    else if (c == '<') to.value = hex_string(key == "Contents" && !here("<FEFF"));
    else if (c == '[') to.value = array();
    else if (c == '(') to.value = literal_string();
    else if (c == '/') to.value = name(key == "Subtype");
    else if (c == 'n' && here("null")) skip(4);
    else if (c == 't' && here("true")) skip(4), to.value = true;
    else if (c == 'f' && here("false")) skip(5), to.value = false;
    else if (!reference(to)) digits(to);
    --depth_;
    to.end = static_cast<std::uint32_t>(at_);
}

Dict Parser::dict() {
    const std::size_t first = entries_.size();
    const auto begin = [&] { return entries_.begin() + static_cast<std::ptrdiff_t>(first); };
    std::set<std::string_view> keys;  // of a large one
    expect("<<\n");
    while (!failed() && !here(">>")) {
        const Name key = name(false);
        const auto is_it = [&](const Entry& entry) { return entry.key == key.text; };
        if (entries_.size() - first == most_keys) fail("a dictionary is too large");
        if (entries_.size() - first == few_keys)
            std::for_each(begin(), entries_.end(), [&](const Entry& entry) { keys.insert(entry.key); });
        if (keys.empty() ? std::any_of(begin(), entries_.end(), is_it) : !keys.insert(key.text).second)
            fail("the key /" + std::string(key.text) + " stands twice in one dictionary");
        expect(" ");
        Entry entry{key.text, {}};
        value(key.text, entry.value);
        entries_.push_back(std::move(entry));
        expect("\n");
    }
    expect(">>");
    return {taken(entries_, first)};
}

Array Parser::array() {
    const std::size_t first = items_.size();
    expect("[ ");
    while (!failed() && !here("]")) {
        Object item;
        value({}, item);
        items_.push_back(std::move(item));
        expect(" ");
    }
    expect("]");
    return {taken(items_, first)};
}

// [0 a b c] with ten digits each, nothing else.
Array Parser::byte_range() {
    Array made;
    expect("[0");
    for (int i = 0; i < 3; ++i) {
        expect(" ");
        Object& item = made.items.emplace_back();
        item.value = static_cast<std::int64_t>(ten_digits());
    }
    expect("]");
    return made;
}

Text Parser::literal_string() {
    Text made;
    expect("(");
    for (char c = peek(); !failed() && c != ')'; c = peek()) {
        if (c == '\\') {
            const auto octal = [&](std::size_t i) { return peek(i) >= '0' && peek(i) <= '7' ? peek(i) - '0' : -1000; };
            const int code = octal(1) * 64 + octal(2) * 8 + octal(3);
            if (code < 0 || code > 255) fail("a text has an escape that reports do not use");
            else made.characters.push_back(static_cast<char>(code)), at_ += 4;
        } else if (c < 0x20 || c == 0x7F || c == '(') {
            fail("a text has a character that reports do not use");
        } else {
            made.characters.push_back(c);
            ++at_;
        }
    }
    expect(")");
    return made;
}

Text Parser::hex_string(bool lower_case) {
    Text made;
    expect("<");
    while (!failed() && peek() != '>') {
        const int high = hex_value(peek(), lower_case), low = hex_value(peek(1), lower_case);
        if (high < 0 || low < 0) return fail("hexadecimal digits of the wrong case or number"), made;
        made.characters.push_back(static_cast<char>(high << 4 | low));
        at_ += 2;
    }
    expect(">");
    return made;
}

// Only a media type has the escape #2F for its slash (ISO 32000-1, 7.11.4.1).
Name Parser::name(bool media_type) {
    expect("/");
    const std::size_t start = at_;
    while (!failed() && is_name_character(peek())) ++at_;
    if (media_type && here("#2F")) {
        at_ += 3;
        while (is_name_character(peek())) ++at_;
    }
    if (at_ == start || at_ - start > 127) fail("a name is empty or too long");
    return {failed() ? std::string_view{} : bytes_.substr(start, at_ - start)};
}

bool Parser::reference(Object& to) {
    std::size_t length = 0;
    while (is_digit(peek(length)) && length < 8) ++length;
    if (length == 0 || bytes_.substr(at_ + length, 4) != " 0 R") return false;
    to.value = Reference{number()};
    expect(" 0 R");
    return true;
}

void Parser::digits(Object& to) {
    const bool negative = peek() == '-';
    if (negative) ++at_;
    const std::size_t start = at_;
    const std::size_t whole = number();
    if (failed()) return;
    if (peek() != '.') {
        if (negative && whole == 0) return fail("a number is not written plainly");
        to.value = negative ? -static_cast<std::int64_t>(whole) : static_cast<std::int64_t>(whole);
        return;
    }
    ++at_;
    const std::size_t point = at_;
    while (is_digit(peek()) && at_ - point < 8) ++at_;
    double value = 0;
    const auto [end, code] = std::from_chars(bytes_.data() + start, bytes_.data() + at_, value);
    if (at_ == point || code != std::errc{} || end != bytes_.data() + at_)
        return fail("a number is not written plainly");
    to.value = negative ? -value : value;
}

}  // namespace rigdeed::verify
