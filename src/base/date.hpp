#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rigdeed {

/// A day of the Gregorian calendar.
struct Date {
    int year = 1970;
    int month = 1;
    int day = 1;

    auto operator<=>(const Date&) const = default;
    [[nodiscard]] std::string iso() const;   ///< 2026-10-03
    [[nodiscard]] std::string text() const;  ///< 3 October 2026
};

/// A day, or only a month or a year where no more is known.
struct PartDate {
    int year = 1970;
    std::optional<int> month;
    std::optional<int> day;

    bool operator==(const PartDate&) const = default;
    [[nodiscard]] std::string iso() const;   ///< 2014-05
    [[nodiscard]] std::string text() const;  ///< May 2014
    [[nodiscard]] Date earliest() const { return {year, month.value_or(1), day.value_or(1)}; }
};

/// Local time of a day, to the second.
struct TimeOfDay {
    int seconds = 0;  ///< since midnight, 0 … 86399

    auto operator<=>(const TimeOfDay&) const = default;
    [[nodiscard]] std::string hh_mm() const;
    [[nodiscard]] std::string hh_mm_ss() const;
};

/// Local date and time, as a camera writes it: no time zone.
struct LocalTime {
    Date date;
    TimeOfDay time;

    auto operator<=>(const LocalTime&) const = default;
};

[[nodiscard]] bool exists(const Date& date);
[[nodiscard]] std::int64_t days_since_epoch(const Date& date);
[[nodiscard]] Date date_from_days(std::int64_t days);
[[nodiscard]] std::int64_t seconds_since_epoch(const LocalTime& when);
[[nodiscard]] LocalTime local_from_seconds(std::int64_t seconds);
/// The same day of the month `months` later, or the last day of that month.
[[nodiscard]] Date months_later(const Date& date, int months);

/// "2026-10-03", and the day must exist.
[[nodiscard]] std::optional<Date> read_date(std::string_view text);
/// "2014", "2014-05" or "2014-05-17".
[[nodiscard]] std::optional<PartDate> read_part_date(std::string_view text);
/// "09:14" or "09:14:30".
[[nodiscard]] std::optional<TimeOfDay> read_time(std::string_view text);
/// "+00:02:10" or "-01:00:00", in seconds.
[[nodiscard]] std::optional<int> read_clock_offset(std::string_view text);
[[nodiscard]] std::string clock_offset_text(int seconds);
/// Digits only, exactly these; nothing otherwise.
[[nodiscard]] std::optional<int> read_digits(std::string_view text);

}  // namespace rigdeed
