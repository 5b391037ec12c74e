#include "verify/document.hpp"

#include <algorithm>

#include "verify/parser.hpp"

namespace rigdeed::verify {
namespace {

constexpr std::size_t most_objects = 500'000;
constexpr std::string_view pointer_word = "\nstartxref\n";

// The number between "startxref" and the end of the file.
std::size_t table_offset(Parser& tail) {
    const std::size_t offset = tail.number();
    tail.expect(file_end);
    return offset;
}

std::size_t length_of_stream(std::string_view bytes, const Table& table, const Dict& dict, Parser& at) {
    const auto* length = get<Reference>(dict, "Length");
    if (length == nullptr || length->number == 0 || length->number >= table.offsets.size()) {
        at.fail("a stream without a length");
        return 0;
    }
    Parser there(bytes, std::min(table.offsets[length->number], bytes.size()));
    there.expect(std::to_string(length->number) + " 0 obj\n");
    const std::size_t value = there.number();
    if (there.failed()) at.fail("the length of a stream cannot be read");
    return value;
}

void read_stream(std::string_view bytes, const Table& table, Parser& parser, Numbered& to) {
    constexpr std::string_view start = "\nstream\r\n", end = "\nendstream";
    const auto* dict = to.object.as<Dict>();
    if (dict == nullptr || !parser.here(start)) return;
    parser.expect(start);
    const std::size_t length = length_of_stream(bytes, table, *dict, parser);
    const std::size_t from = parser.at();
    parser.skip(length);
    if (!parser.failed()) to.stream = bytes.substr(from, length);
    parser.expect(end);
}

}  // namespace

const Dict* Document::dict(std::size_t number) const {
    return number > 0 && number < objects.size() ? objects[number].object.as<Dict>() : nullptr;
}

const Dict* Document::dict(const Dict& in, std::string_view key) const {
    const Object* found = in.find(key);
    if (found == nullptr) return nullptr;
    if (const auto* reference = found->as<Reference>()) return dict(reference->number);
    return found->as<Dict>();
}

std::string read_table(std::string_view bytes, Table& table) {
    constexpr std::size_t longest_tail = 64;
    const std::size_t tail = bytes.rfind(pointer_word);
    if (tail == std::string_view::npos || bytes.size() - tail > longest_tail)
        return "the file does not end with the place of its cross-reference table";
    Parser pointer(bytes, tail + pointer_word.size());
    table.at = table_offset(pointer);
    if (pointer.failed()) return pointer.fault();
    if (pointer.at() != bytes.size()) return "bytes follow the end of the report";
    if (table.at >= tail) return "the cross-reference table is not where the file says";

    Parser parser(bytes.substr(0, tail + 1), table.at);
    parser.expect("xref\n0 ");
    const std::size_t count = parser.number();
    if (count < 2 || count > most_objects) parser.fail("the number of objects cannot be right");
    parser.expect("\n0000000000 65535 f\r\n");
    table.offsets.assign(1, 0);
    for (std::size_t i = 1; i < count && !parser.failed(); ++i) {
        table.offsets.push_back(parser.ten_digits());
        parser.expect(" 00000 n\r\n");
    }
    parser.expect("trailer\n");
    Object trailer = parser.object();
    parser.expect("\n");
    if (parser.failed()) return parser.fault();
    if (parser.at() != tail + 1) return "something stands between the trailer and the end of the file";
    const auto* dict = trailer.as<Dict>();
    // not reached: a trailer is read as a dictionary
    const auto* size = dict == nullptr ? nullptr : get<std::int64_t>(*dict, "Size");
    if (size == nullptr || *size != static_cast<std::int64_t>(count))
        return "the trailer gives another number of objects";
    table.trailer = *dict;
    return {};
}

std::string read_objects(std::string_view bytes, Table table, Document& document) {
    document.bytes = bytes;
    document.objects.resize(table.offsets.size());
    Parser parser(bytes.substr(0, table.at), file_start.size());
    for (std::size_t number = 1; number < table.offsets.size() && !parser.failed(); ++number) {
        if (table.offsets[number] != parser.at())
            return "object " + std::to_string(number) + " is not where the cross-reference table says";
        parser.expect(std::to_string(number) + " 0 obj\n");
        document.objects[number].object = parser.object();
        read_stream(bytes, table, parser, document.objects[number]);
        parser.expect("\nendobj\n");
        if (parser.failed()) return "object " + std::to_string(number) + ": " + parser.fault();
    }
    if (parser.at() != table.at) return "something stands between the last object and the cross-reference table";
    document.trailer = std::move(table.trailer);
    return {};
}

}  // namespace rigdeed::verify
