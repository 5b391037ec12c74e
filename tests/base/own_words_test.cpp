#include "base/own_words.hpp"

#include <doctest/doctest.h>

using namespace rigdeed;

TEST_CASE("own words stand between marks, a full stop outside them, and come out as they were") {
    CHECK(as_own_words("dry") == "\uE000dry\uE001");
    CHECK(as_own_words("dry, no wind.") == "\uE000dry, no wind\uE001.");
    CHECK(as_own_words("") == "");
    CHECK(as_own_words(".") == ".");
    for (const char* text : {"", ".", "a", "ä.", "one. two.", "…"})
        CHECK(without_own_words_marks(as_own_words(text)) == text);
    CHECK(without_own_words_marks("\uE000 \uE001\uE001x") == " x");
}

TEST_CASE("whether own words go on in the next line") {
    CHECK(own_words_open("wet \uE000since"));
    CHECK(!own_words_open("wet \uE000since\uE001 then"));
    CHECK(own_words_open("\uE001 then \uE000when"));
    CHECK(own_words_open("nothing of the kind", true));
    CHECK(!own_words_open("nothing of the kind", false));
    CHECK(!own_words_open("then\uE001", true));
}
