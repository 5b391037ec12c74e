#include "base/date.hpp"

#include <array>
#include <charconv>
#include <chrono>
#include <cstdlib>

#include "base/text.hpp"

namespace rigdeed {
namespace {

constexpr std::array<std::string_view, 12> month_names{"January",   "February", "March",    "April",
                                                       "May",       "June",     "July",     "August",
                                                       "September", "October",  "November", "December"};

std::string padded(int number, std::size_t width) {
    std::string text = std::to_string(number);
    return text.size() < width ? std::string(width - text.size(), '0') + text : text;
}

std::chrono::year_month_day calendar(const Date& date) {
    return {std::chrono::year(date.year), std::chrono::month(static_cast<unsigned>(date.month)),
            std::chrono::day(static_cast<unsigned>(date.day))};
}

std::optional<int> digits_at(std::string_view text, std::size_t at, std::size_t count) {
    if (at + count > text.size()) return std::nullopt;
    return read_digits(text.substr(at, count));
}

}  // namespace

std::optional<int> read_digits(std::string_view text) {
    if (text.empty() || text.size() > 9 || text.find_first_not_of("0123456789") != std::string_view::npos)
        return std::nullopt;
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

std::string Date::iso() const { return padded(year, 4) + "-" + padded(month, 2) + "-" + padded(day, 2); }

std::string Date::text() const {
    return std::to_string(day) + " " + std::string(month_names.at(static_cast<std::size_t>(month - 1))) + " " +
           std::to_string(year);
}

std::string PartDate::iso() const {
    std::string text = padded(year, 4);
    if (month) text += "-" + padded(*month, 2);
    if (day) text += "-" + padded(*day, 2);
    return text;
}

std::string PartDate::text() const {
    if (month && day) return Date{year, *month, *day}.text();
    if (month) return std::string(month_names.at(static_cast<std::size_t>(*month - 1))) + " " + std::to_string(year);
    return std::to_string(year);
}

std::string TimeOfDay::hh_mm() const { return padded(seconds / 3600, 2) + ":" + padded(seconds / 60 % 60, 2); }
std::string TimeOfDay::hh_mm_ss() const { return hh_mm() + ":" + padded(seconds % 60, 2); }

bool exists(const Date& date) {
    return date.year >= 1 && date.year <= 9999 && date.month >= 1 && date.day >= 1 && calendar(date).ok();
}

std::int64_t days_since_epoch(const Date& date) {
    return std::chrono::sys_days(calendar(date)).time_since_epoch().count();
}

Date date_from_days(std::int64_t days) {
    const std::chrono::year_month_day ymd{std::chrono::sys_days(std::chrono::days(days))};
    return {static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
            static_cast<int>(static_cast<unsigned>(ymd.day()))};
}

std::int64_t seconds_since_epoch(const LocalTime& when) {
    return days_since_epoch(when.date) * 86400 + when.time.seconds;
}

LocalTime local_from_seconds(std::int64_t seconds) {
    const std::int64_t days = seconds >= 0 ? seconds / 86400 : -((-seconds + 86399) / 86400);
    return {date_from_days(days), {static_cast<int>(seconds - days * 86400)}};
}

Date months_later(const Date& date, int months) {
    const auto moved = calendar(date) + std::chrono::months(months);
    const auto last = std::chrono::year_month_day_last(moved.year(), std::chrono::month_day_last(moved.month()));
    const auto kept = moved.ok() ? moved : std::chrono::year_month_day(last);
    return {static_cast<int>(kept.year()), static_cast<int>(static_cast<unsigned>(kept.month())),
            static_cast<int>(static_cast<unsigned>(kept.day()))};
}

std::optional<Date> read_date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = digits_at(text, 0, 4);
    const auto month = digits_at(text, 5, 2);
    const auto day = digits_at(text, 8, 2);
    if (!year || !month || !day) return std::nullopt;
    const Date date{*year, *month, *day};
    return exists(date) ? std::optional(date) : std::nullopt;
}

std::optional<PartDate> read_part_date(std::string_view text) {
    const auto year = digits_at(text, 0, 4);
    if (!year) return std::nullopt;
    if (text.size() == 4) return exists({*year, 1, 1}) ? std::optional(PartDate{*year, {}, {}}) : std::nullopt;
    if (text.size() == 7 && text[4] == '-') {
        const auto month = digits_at(text, 5, 2);
        return month && exists({*year, *month, 1}) ? std::optional(PartDate{*year, month, {}}) : std::nullopt;
    }
    const auto date = read_date(text);
    return date ? std::optional(PartDate{date->year, date->month, date->day}) : std::nullopt;
}

std::optional<TimeOfDay> read_time(std::string_view text) {
    const bool seconds_given = text.size() == 8;
    if ((text.size() != 5 && !seconds_given) || text[2] != ':' || (seconds_given && text[5] != ':'))
        return std::nullopt;
    const auto hour = digits_at(text, 0, 2);
    const auto minute = digits_at(text, 3, 2);
    const auto second = seconds_given ? digits_at(text, 6, 2) : std::optional(0);
    if (!hour || !minute || !second || *hour > 23 || *minute > 59 || *second > 59) return std::nullopt;
    return TimeOfDay{*hour * 3600 + *minute * 60 + *second};
}

std::optional<int> read_clock_offset(std::string_view text) {
    if (text.size() != 9 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
    const auto time = read_time(text.substr(1));
    if (!time) return std::nullopt;
    return text[0] == '-' ? -time->seconds : time->seconds;
}

std::string clock_offset_text(int seconds) {
    return (seconds < 0 ? "-" : "+") + TimeOfDay{std::abs(seconds)}.hh_mm_ss();
}

}  // namespace rigdeed
