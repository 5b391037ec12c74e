// Every value of a report's dictionaries in the place of every other kind of value, sealed again by the forger.
#include <doctest/doctest.h>

#include <set>

#include "base/text.hpp"
#include "verify/sample_report.hpp"
#include "verify/verify.hpp"

using namespace rigdeed;
using sample::failing_check;
using sample::replaced;
using sample::resealed;
using sample::sealed_report;

namespace {

struct Entry {
    std::string key;
    std::size_t begin = 0;  // of the value
    std::size_t size = 0;
};

/// One entry for each key of each kind of object: a line "/Key value" outside of streams.
std::vector<Entry> entries() {
    const std::string& file = sealed_report();
    std::vector<Entry> found;
    std::set<std::string> known;
    std::string kind;
    bool in_stream = false;
    for (std::size_t at = 0; at < file.size();) {
        const std::size_t end = std::min(file.find('\n', at), file.size());
        const std::string line = file.substr(at, end - at);
        if (line.ends_with("obj")) kind.clear();
        if (line == "stream") in_stream = true;
        if (line == "endstream") in_stream = false;
        const std::size_t blank = line.find(' ');
        if (!in_stream && line.starts_with("/") && blank != std::string::npos && line.size() < 200) {
            const std::string key = line.substr(0, blank);
            if (key == "/Type" || key == "/Subtype" || key == "/S") kind += line;
            const std::string value = line.substr(blank + 1);
            if (value != "<<" && value != "[" && known.insert(kind + key).second)
                found.push_back({key, at + blank + 1, value.size()});
        }
        at = end + 1;
    }
    return found;
}

}  // namespace

TEST_CASE("a value of another kind in any place of a report is refused, or harms nothing") {
    const std::vector<Entry> all = entries();
    CHECK(all.size() > 100);
    const std::vector<std::string> values{"null",
                                          "7",
                                          "-7",
                                          "0.5",
                                          "-0.5",
                                          "(x)",
                                          "<FEFF0041>",
                                          "/Odd",
                                          "[ ]",
                                          "[ 7 7 ]",
                                          "[ 1 0 R 7 7 7 7 ]",
                                          "true",
                                          "false",
                                          "<<\n>>",
                                          "1 0 R",
                                          "0 0 R",
                                          "3 0 R",
                                          "9999 0 R",
                                          "[ (a) 1 0 R ]",
                                          "[ 0 << /S /D >> ]"};
#if defined(RIGDEED_SANITIZED)  // many times as slow: a quarter of the values in each place, others in the next
    const std::size_t every = 4;
#else
    const std::size_t every = 1;
#endif
    std::size_t refused = 0, let_be = 0;
    std::set<std::string> harmless;
    for (std::size_t one = 0; one < all.size(); ++one)
        for (std::size_t of = one % every; of < values.size(); of += every) {
            const Entry& entry = all[one];
            const std::string& value = values[of];
            std::string changed = sealed_report();
            if (changed.substr(entry.begin, entry.size) == value) continue;
            changed.replace(entry.begin, entry.size, value);
            try {
                changed = resealed(changed);
            } catch (const std::exception&) {
                continue;  // hit a part that the forger's tool needs
            }
            if (!failing_check(changed).empty()) {
                ++refused;
            } else {
                ++let_be;
                harmless.insert(entry.key);
            }
        }
    CHECK(refused > 1500 / every);
    // Any number, any text, a shorter list: what shows on a page is held against the survey when the pages are made
    // anew. The table's size is the forger's own tool's.
    const std::set<std::string> free{"/Ascent",
                                     "/Author",
                                     "/BBox",
                                     "/BaseFont",
                                     "/Border",
                                     "/CA",
                                     "/CapHeight",
                                     "/Contents",
                                     "/Count",
                                     "/CreationDate",
                                     "/Creator",
                                     "/DW",
                                     "/Desc",
                                     "/Descent",
                                     "/DisplayDocTitle",
                                     "/Filter",
                                     "/Flags",
                                     "/FontBBox",
                                     "/FontName",
                                     "/Height",
                                     "/ID",
                                     "/Info",
                                     "/ItalicAngle",
                                     "/K",
                                     "/Lang",
                                     "/Length1",
                                     "/Location",
                                     "/M",
                                     "/Marked",
                                     "/MediaBox",
                                     "/ModDate",
                                     "/Name",
                                     "/Nums",
                                     "/Ordering",
                                     "/OutputCondition",
                                     "/OutputConditionIdentifier",
                                     "/P",
                                     "/ParentTreeNextKey",
                                     "/ProcSet",
                                     "/Producer",
                                     "/Reason",
                                     "/Rect",
                                     "/Registry",
                                     "/RegistryName",
                                     "/Size",
                                     "/StemV",
                                     "/StructParent",
                                     "/StructParents",
                                     "/Subject",
                                     "/T",
                                     "/TU",
                                     "/Title",
                                     "/Width",
                                     "/ca"};
    for (const std::string& key : harmless) CHECK_MESSAGE(free.contains(key), key);
    CHECK(let_be < refused / 10);
}

TEST_CASE("numbers, texts and dictionaries that a report does not write so are refused") {
    constexpr const char* objects = "every object in its place";
    std::string many = "/Count 2";
    for (int i = 0; i < 1100; ++i) many += "\n/K" + std::to_string(i) + " 0";
    for (const std::string& value :
         {std::string("/Count -0"), std::string("/Count 0."), std::string("/Count 0.123456789"),
          std::string("/Count -"), std::string("/Count 99999999999"), std::string("/Count (a\\777)"),
          std::string("/Count (a\\08)"), std::string("/Count (a\x7F)"), std::string("/Count (a\x01)"),
          std::string("/Count (a"), std::string("/Count <41"), std::string("/Count tru"), many}) {
        CAPTURE(value.substr(0, 40));
        CHECK(failing_check(resealed(replaced(sealed_report(), "/Count 2", value))) == objects);
    }
}

TEST_CASE("what a report says of itself cannot steer a terminal, whatever its text is") {
    const auto title = [](const std::string& text) {
        std::string file = sealed_report();
        const std::size_t at = file.find("/Author (");
        REQUIRE(at != std::string::npos);
        const std::size_t end = file.find('\n', at);
        file.replace(at, end - at, "/Author " + text);
        return verify::verify(resealed(file), {}).claims.author;
    };
    CHECK(title("<FEFF00E9>") == "é");
    CHECK(title("<FEFFD83DDE00>") == "😀");
    CHECK(title("<FEFFD83D0041>") == "\uFFFDA");
    CHECK(title("<FEFFD83D>") == "\uFFFD");
    CHECK(title("<FEFFDE00D83D>") == "\uFFFD\uFFFD");
    CHECK(title("<FEFF001B005B0033>") == "\uFFFD[3");
    CHECK(title("<FEFF009B0085>") == "\uFFFD\uFFFD");
    CHECK(title("(a\\033[31m)") == "a\uFFFD[31m");
    CHECK(title("(a\\351)") == "a\uFFFD");
    CHECK(title("()").empty());
}

TEST_CASE("a time of sealing that is none leaves the certificate's validity open, and no authority vouches") {
    const auto claimed = [](const std::string& date) {
        std::string file = sealed_report();
        const std::size_t at = file.find("/M (D:");
        REQUIRE(at != std::string::npos);
        const std::size_t end = file.find('\n', at);
        file.replace(at, end - at, "/M (" + date + ")");
        return verify::verify(resealed(file), {});
    };
    CHECK(claimed("D:20261003091400+00'00'").claims.sealed_at.has_value());
    for (const char* date :
         {"D:20261003091400+01'00'", "E:20261003091400+00'00'", "D:20261303091400+00'00'", "D:20260230091400+00'00'",
          "D:20261003241400+00'00'", "D:20261003096000+00'00'", "D:20261003091460+00'00'", "D:2026100309140x+00'00'",
          "D:20261003xx1400+00'00'", "D:2026100309xx00+00'00'", "D:20261003", ""}) {
        CAPTURE(date);
        const verify::Verdict verdict = claimed(date);
        CHECK_FALSE(verdict.claims.sealed_at.has_value());
        CHECK_FALSE(verdict.certificate_valid_then);
    }
}
