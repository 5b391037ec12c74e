#include "base/date.hpp"

#include <doctest/doctest.h>

using namespace rigdeed;

TEST_CASE("only days that exist are read (Gregorian calendar, ISO 8601)") {
    CHECK(read_date("2024-02-29"));
    CHECK(!read_date("2026-02-29"));
    CHECK(!read_date("1900-02-29"));
    CHECK(read_date("2000-02-29"));
    for (const char* text :
         {"2026-13-01", "2026-00-10", "2026-1-01", "26-01-01", "2026-01-32", "2026/01/01", "2026-01-01 ", ""})
        CHECK_MESSAGE(!read_date(text), text);
}

TEST_CASE("seconds since 1970 agree with POSIX time") {
    CHECK(seconds_since_epoch({{1970, 1, 1}, {0}}) == 0);
    CHECK(seconds_since_epoch({{2026, 10, 3}, {13 * 3600}}) == 1791032400);  // date -u -d '2026-10-03 13:00' +%s
    CHECK(local_from_seconds(-1) == LocalTime{{1969, 12, 31}, {86399}});
    for (const std::int64_t s : {0LL, 951782400LL, 1791032461LL, 4102444800LL})
        CHECK(seconds_since_epoch(local_from_seconds(s)) == s);
}

TEST_CASE("months later keeps the day, or takes the last of the month") {
    CHECK(months_later({2026, 10, 3}, 6) == Date{2027, 4, 3});
    CHECK(months_later({2026, 8, 31}, 6) == Date{2027, 2, 28});
    CHECK(months_later({2026, 12, 15}, 1) == Date{2027, 1, 15});
}

TEST_CASE("part dates keep what is known") {
    CHECK(read_part_date("2014-05")->text() == "May 2014");
    CHECK(read_part_date("2014")->iso() == "2014");
    CHECK(read_part_date("2014-05-17")->text() == "17 May 2014");
    CHECK(!read_part_date("2014-5"));
    CHECK(!read_part_date("2014-02-30"));
}

TEST_CASE("times and clock offsets") {
    CHECK(read_time("09:14")->seconds == 33240);
    CHECK(read_time("23:59:59")->hh_mm_ss() == "23:59:59");
    for (const char* text : {"24:00", "9:14", "09:60", "09:14:60", "0914", "09-14"})
        CHECK_MESSAGE(!read_time(text), text);
    CHECK(read_clock_offset("+00:02:10") == 130);
    CHECK(read_clock_offset("-01:00:00") == -3600);
    CHECK(!read_clock_offset("00:02:10"));
    CHECK(clock_offset_text(-3600) == "-01:00:00");
}
