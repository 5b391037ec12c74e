#include "command/terminal.hpp"

#include <doctest/doctest.h>

#include "base/text.hpp"

using namespace rigdeed;
using command::wrapped;

TEST_CASE("lines break between words, and what goes on stands farther in") {
    const std::string text = "    hint: list it in the rig with all of its fittings, or say that there is none";
    for (const std::size_t columns : {20U, 40U, 60U, 80U}) {
        std::string joined;
        for (const std::string& line : split(wrapped(text, columns), '\n')) {
            CHECK(count_letters(line) <= columns);
            joined += (joined.empty() ? "" : " ") + std::string(trim(line));
        }
        CHECK(joined == std::string(trim(text)));
    }
    CHECK(split(wrapped(text, 40), '\n').at(1).starts_with("      "));
    CHECK(wrapped(text, 0) == text);
    CHECK(wrapped("short", 40) == "short");
}

TEST_CASE("a line of XML to be written is never broken, whatever the width") {
    const std::string element = "<absent kind=\"spreader-tip\" side=\"port\" because=\"none was ever fitted\"/>";
    const std::string attribute = "dated=\"2026-10-02 2026-10-03\"";
    const std::string text =
        "    hint: list it in the rig, or write " + element + " in <rig>, or " + attribute + " in <photos>";
    for (std::size_t columns = 20; columns < 160; ++columns) {
        const std::string broken = wrapped(text, columns);
        CHECK(broken.find(element) != std::string::npos);
        CHECK(broken.find(attribute) != std::string::npos);
    }
    CHECK(wrapped("a < b and much more than that", 20) == "a < b and much more\n  than that");
    CHECK(wrapped("an <open and no end of it here", 20) == "an <open and no end\n  of it here");
}

TEST_CASE("a word longer than the line stays whole, letters count and not bytes or colours") {
    const std::string id = "mizzen-intermediate-2-starboard-upper-swaged-terminal";
    CHECK(wrapped("many " + id + " b", 30) == "many\n  " + id + "\n  b");
    CHECK(wrapped("äöüäöüäöü äöüäöüäöü", 20) == "äöüäöüäöü äöüäöüäöü");
    CHECK(wrapped("\033[1;31mnine-nine\033[0m nine-nine", 20) == "\033[1;31mnine-nine\033[0m nine-nine");
}
