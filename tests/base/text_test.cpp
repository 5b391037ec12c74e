#include "base/text.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "base/json.hpp"

using namespace rigdeed;

TEST_CASE("UTF-8 is accepted as RFC 3629 has it, and nothing else") {
    CHECK(decode_utf8("Å 漢 😀")->size() == 5);
    for (const char* text : {"\x80", "\xC0\xAF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80",
                             "\xF8\x88\x80\x80\x80", "\xC3", "a\xE2\x82"})
        CHECK(!decode_utf8(text));
    const std::string round = "ß Ω Ж €😀";
    CHECK(encode_utf8(*decode_utf8(round)) == round);
}

TEST_CASE("quoting shows control characters and cuts long texts between characters") {
    CHECK(in_quotes("a\x1b[31m\n") == "\"a\\x1b[31m\\x0a\"");
    const std::string cut = in_quotes(std::string(79, 'x') + "éééé");
    CHECK(decode_utf8(cut));
    CHECK(cut.size() < 90);
}

TEST_CASE("spoofing: what a reader cannot see, or would be misled by, is shown by its number") {
    CHECK(in_quotes("Ada\"; \"") == "\"Ada\\x22; \\x22\"");
    CHECK(in_quotes("a\xC2\x9B"
                    "31m") == "\"a\\x9b31m\"");
    CHECK(shown("a\xE2\x80\xAE"
                "b") == "a\\u{202e}b");
    CHECK(shown("a\xE2\x80\x8B\xEF\xBB\xBF\xC2\xAD") == "a\\u{200b}\\u{feff}\\xad");
    CHECK(shown("caf\xE9") == "caf\\xe9");
    CHECK(shown("Åsa 漢 😀") == "Åsa 漢 😀");
    JsonWriter json;
    json.value("a\"\xE2\x80\xAE\xF3\xA0\x80\x81\xE9");
    CHECK(json.text() == "\"a\\\"\\u202e\\udb40\\udc01\\ufffd\"\n");
}

TEST_CASE("scripts that letters set one by one would garble are known") {
    for (const char32_t c : U"אسनกကឃᠠﬡﻼ") CHECK((c == 0 || needs_shaping(c)));
    for (const char32_t c : U"AzÅŐΩжЯ€→½") CHECK_FALSE(needs_shaping(c));
}

TEST_CASE("nearest names come first") {
    CHECK(nearest("thimbel", {"toggle", "thimble", "tang"}, 2) == std::vector<std::string>{"thimble", "toggle"});
}

TEST_CASE("a name that holds what was written comes before one that only looks like it") {
    CHECK(nearest("sloop", {"cat", "schooner", "masthead-sloop"}, 1) == std::vector<std::string>{"masthead-sloop"});
}

TEST_CASE("a pattern with a name that nothing fills is a bug") {
    CHECK(filled("a {b} c", {{"b", "x"}}) == "a x c");
    CHECK_THROWS_AS((void)filled("a {b}", {}), Error);
}

TEST_CASE("lists in words") {
    CHECK(listed({}) == "");
    CHECK(listed({"a"}) == "a");
    CHECK(listed({"a", "b", "c"}) == "a, b and c");
    CHECK(counted(1, "gap") == "1 gap");
    CHECK(counted(2, "gap") == "2 gaps");
}

TEST_CASE("JSON escapes what RFC 8259 wants escaped") {
    JsonWriter json;
    json.begin_object()
        .field("a\"b", "x\\\n\x01")
        .field("n", 3)
        .key("list")
        .begin_array()
        .value(true)
        .null()
        .number(1.5, 2)
        .end()
        .end();
    CHECK(
        json.text() ==
        "{\n  \"a\\\"b\": \"x\\\\\\n\\u0001\",\n  \"n\": 3,\n  \"list\": [\n    true,\n    null,\n    1.50\n  ]\n}\n");
}

TEST_CASE("letters are counted, not bytes") {
    CHECK(count_letters("") == 0);
    CHECK(count_letters("weakest") == 7);
    CHECK(count_letters("schwächstes Glied") == 17);
    CHECK(count_letters("Плавник ⌀ 𝟠") == 11);
}

TEST_CASE("a letter and its mark are composed as Unicode's form C has them") {
    CHECK(composed("u\u0308ber") == "\u00FCber");
    CHECK(composed("\u00FCber") == "\u00FCber");
    CHECK(composed("\u0438\u0306") == "\u0439");
    CHECK(composed("a\u0302\u0301") == "\u1EA5");
    CHECK(composed("q\u0308") == "q\u0308");
    CHECK(composed("\xFF") == "\xFF");
}
