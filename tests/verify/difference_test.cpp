// What differs between a report and the one its own survey makes, in words; and what lies at the edges of the checks.
#include <doctest/doctest.h>
#include <zlib.h>

#include "verify/accident.hpp"
#include "verify/compare.hpp"
#include "verify/sample_report.hpp"
#include "verify/verify.hpp"

using namespace rigdeed;
using sample::failing_check;
using sample::replaced;
using sample::resealed;
using sample::sealed_report;
using sample::with_table;
using verify::first_difference;

namespace {

Bytef* bytes_of(std::string& text) { return reinterpret_cast<Bytef*>(text.data()); }

std::string line_of(const std::string& file, const std::string& start) {
    const std::size_t at = file.find(start);
    REQUIRE(at != std::string::npos);
    return file.substr(at, file.find('\n', at) - at);
}

std::string changed(const std::string& start, const std::string& to) {
    return with_table(replaced(sealed_report(), line_of(sealed_report(), start), to));
}

/// The first page's content packed at another level, with a character of it exchanged.
std::string repacked(std::string file, char from, char to) {
    const std::string begin = "/Filter [ /FlateDecode ]\n>>\nstream\r\n";
    const std::size_t start = file.find(begin) + begin.size(), end = file.find("\nendstream", start);
    REQUIRE(end != std::string::npos);
    std::string plain(1 << 20, '\0');
    uLongf size = plain.size();
    REQUIRE(uncompress(bytes_of(plain), &size, bytes_of(file) + start, static_cast<uLong>(end - start)) == Z_OK);
    plain.resize(size);
    if (from != to) plain[plain.find(from)] = to;
    std::string packed(compressBound(size), '\0');
    uLongf packed_size = packed.size();
    REQUIRE(compress2(bytes_of(packed), &packed_size, bytes_of(plain), size, 1) == Z_OK);
    packed.resize(packed_size);
    const std::size_t length = file.rfind("/Length ", start) + 8;
    const std::string object = "\n" + file.substr(length, file.find(' ', length) - length) + " 0 obj\n";
    file.replace(start, end - start, packed);
    const std::size_t number = file.find(object) + object.size();
    file.replace(number, file.find('\n', number) - number, std::to_string(packed.size()));
    return with_table(std::move(file));
}

}  // namespace

TEST_CASE("a difference is told by what it is in") {
    const std::string& good = sealed_report();
    CHECK(first_difference(good, good).empty());
    CHECK(first_difference(good, changed("/Author (", "/Author (A. Nother)")) ==
          "title, author, date or place are not those of the survey in the report");
    CHECK(first_difference(good, changed("/Reason (", "/Reason (none)")) ==
          "title, author, date or place are not those of the survey in the report");
    CHECK(first_difference(good, changed("/Desc ", "/Desc (another)")) ==
          "the files carried in the report do not go together");
    CHECK(first_difference(good, changed("/MediaBox [", "/MediaBox [ 0 0 100 100 ]")) ==
          "page 1 does not say what the survey in the report says");
    CHECK(first_difference(good, changed("/StemV ", "/StemV 81"))
              .ends_with(" is not what the survey in the report makes"));
    CHECK(first_difference(good, "%PDF-1.7\n") == "the report has not the structure that its survey makes");
    CHECK(first_difference("", good) == "the report has not the structure that its survey makes");
    CHECK(first_difference(good, changed("/Count 2", "/Count 3")) ==
          "the report has not the structure that its survey makes");
    CHECK(first_difference(good, changed("/Type /Pages", "/Type /Pagez")) ==
          "the report has not the structure that its survey makes");
}

TEST_CASE("a page packed in another way is the same page, one that says something else is not") {
    const std::string& good = sealed_report();
    CHECK(repacked(good, 'x', 'x') != good);
    CHECK(first_difference(good, repacked(good, 'x', 'x')).empty());
    CHECK(first_difference(good, repacked(good, '1', '2')) == "page 1 does not say what the survey in the report says");
}

TEST_CASE("a trailer that counts otherwise, and a table that leads elsewhere, are refused") {
    const std::string& good = sealed_report();
    const std::string size = "/Size " + sample::object_count(good);
    CHECK(failing_check(replaced(good, size, "/Size " + sample::one_more(sample::object_count(good)))) ==
          "one cross-reference table");
    CHECK(failing_check(replaced(good, size, "/Size (x)")) == "one cross-reference table");
    CHECK(failing_check(replaced(good, size, "/Size null")) == "one cross-reference table");
}

TEST_CASE("a destination that is no place on a page is refused") {
    const std::string dest = line_of(sealed_report(), "/Dest [ ");
    const std::string page = dest.substr(8, dest.find(" R") - 6);
    for (const std::string& value :
         {"[ " + page + " 7 7 7 null ]", "[ " + page + " /Fit 7 7 null ]", "[ " + page + " /XYZ (x) 7 null ]",
          "[ " + page + " /XYZ 7 (x) null ]", "[ " + page + " /XYZ 7 7 7 ]", "[ " + page + " /XYZ 7 7 ]"}) {
        CAPTURE(value);
        CHECK(failing_check(resealed(replaced(sealed_report(), dest, "/Dest " + value))) == "only objects of a report");
    }
    CHECK(failing_check(resealed(replaced(sealed_report(), dest, "/Dest [ " + page + " /XYZ 7 7.5 null ]"))).empty());
}

TEST_CASE("a carried file stands once in both lists") {
    const std::string& good = sealed_report();
    const std::string names = line_of(good, "/Names [ ("), associated = line_of(good, "/AF [ ");
    const std::string one = names.substr(9, names.size() - 10), its = associated.substr(6, associated.size() - 7);
    const std::string twice = replaced(good, names, "/Names [ " + one + one + "]");
    CHECK(failing_check(resealed(twice)) == "the carried files agree");
    CHECK(failing_check(resealed(replaced(twice, associated, "/AF [ " + its + its + "]"))) ==
          "the carried files agree");
    CHECK(failing_check(resealed(replaced(good, associated, "/AF [ ]"))) == "the carried files agree");
}

TEST_CASE("the length of a stream is a number within the file, and a stream stands only where one belongs") {
    const std::string& good = sealed_report();
    const std::string length = line_of(good, "/Length ");
    const std::string object = "\n" + length.substr(8, length.find(' ', 8) - 8) + " 0 obj\n";
    const std::size_t at = good.find(object);
    REQUIRE(at != std::string::npos);
    const std::size_t end = good.find('\n', at + object.size());
    for (const char* value : {"99999999", "(x)", "null", "-1", "<<\n>>"}) {
        CAPTURE(value);
        std::string file = good;
        file.replace(at + object.size(), end - at - object.size(), value);
        CHECK_FALSE(failing_check(resealed(file)).empty());
    }
}

TEST_CASE("accidents at the edges are told apart, too") {
    CHECK(verify::likely_accident("%PDF-1.7\n%\xEF\xBF\xBD\xEF\xBF\xBD\n").reason == verify::Reason::text_conversion);
    CHECK(verify::likely_accident("%PDF-1.7\n%???\n").reason == verify::Reason::text_conversion);
    CHECK(verify::likely_accident("%PDF-1.7\n" + std::string(20, 'x')).reason != verify::Reason::none);
    CHECK(verify::likely_accident("%PD").reason == verify::Reason::not_a_pdf);
    CHECK(verify::likely_accident("%PDF-").reason != verify::Reason::none);
}
