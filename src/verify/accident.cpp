#include "verify/accident.hpp"

#include <optional>

#include "base/text.hpp"
#include "verify/document.hpp"
#include "verify/parser.hpp"

namespace rigdeed::verify {
namespace {

constexpr std::string_view magic = "%PDF-";
constexpr auto npos = std::string_view::npos;

bool has(std::string_view file, std::string_view word) { return file.find(word) != npos; }
bool starts(std::string_view file, std::string_view word) { return file.substr(0, word.size()) == word; }
bool ends(std::string_view file, std::string_view word) {
    return file.size() >= word.size() && file.substr(file.size() - word.size()) == word;
}

// As many bytes as the first byte range says the file has.
std::optional<std::size_t> sealed_size(std::string_view file) {
    constexpr std::string_view word = "/ByteRange ";
    const std::size_t at = file.find(word);
    if (at == npos) return std::nullopt;
    Parser parser(file, at + word.size());
    parser.expect("[0 ");
    (void)parser.ten_digits();
    parser.expect(" ");
    const std::size_t after = parser.ten_digits();
    parser.expect(" ");
    const std::size_t rest = parser.ten_digits();
    parser.expect("]");
    if (parser.failed()) return std::nullopt;
    return after + rest;
}

std::optional<Accident> at_the_start(std::string_view file) {
    if (file.empty()) return Accident{Reason::empty, "the file is empty"};
    if (!starts(file, magic)) {
        if (has(file.substr(0, 4096), magic)) return Accident{Reason::bytes_before, "bytes were put before the report"};
        return Accident{Reason::not_a_pdf, "the file is not a PDF"};
    }
    if (starts(file, "%PDF-1.7\r"))
        return Accident{Reason::line_ends, "changed in transport: line ends were converted"};
    if (starts(file, "%PDF-1.7\n%\xC2\xB7") || starts(file, "%PDF-1.7\n%\xEF\xBF\xBD") ||
        starts(file, "%PDF-1.7\n%?") ||
        starts(file, "%PDF-1.7\n%7>-*"))  // UTF-8, its sign for what it cannot show, question marks, seven bits
        return Accident{Reason::text_conversion, "changed in transport: the file was converted as if it were text"};
    return std::nullopt;
}

std::optional<Accident> at_the_end(std::string_view file) {
    const auto size = sealed_size(file);
    const std::size_t end = file.find(file_end);
    if (size && file.size() < *size) {
        if (starts(file, file_start) && !has(file, "stream\r\n"))
            return Accident{Reason::line_ends, "changed in transport: line ends were converted"};
        if (!ends(file, file_end))
            return Accident{Reason::cut_short, "cut short: " + counted(*size - file.size(), "byte") + " of " +
                                                   std::to_string(*size) + " are missing"};
        return Accident{Reason::changed_inside, "changed after it was issued: bytes are missing inside"};
    }
    if (size && *size > file_end.size() && file.size() > *size &&
        file.substr(*size - file_end.size(), file_end.size()) == file_end)
        return Accident{Reason::bytes_appended, "changed after it was issued: " + counted(file.size() - *size, "byte") +
                                                    " stand behind its end"};
    if (end == npos) return Accident{Reason::cut_short, "cut short: the end of the file is missing"};
    return std::nullopt;
}

}  // namespace

Accident likely_accident(std::string_view file) {
    if (const auto found = at_the_start(file)) return *found;
    if (!has(file, "/Producer (rigdeed ")) return {Reason::not_a_report, "a PDF, but not a report of this program"};
    if (const auto found = at_the_end(file)) return *found;
    if (!has(file, "/AcroForm ") && !has(file, "/ByteRange"))
        return {Reason::unsigned_preview, "a preview: it was never sealed"};
    return {Reason::changed_inside, "changed after it was issued"};
}

}  // namespace rigdeed::verify
