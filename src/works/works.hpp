#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "base/date.hpp"
#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "survey/survey.hpp"

/// What became of the works list of a report, as the rigger who did the works writes it down.
namespace rigdeed::works {

inline constexpr std::string_view works_namespace = "urn:rigdeed:works:1";

enum class Done {
    yes,        ///< as the list asks
    otherwise,  ///< in another way
    no,
    worse,  ///< not done: it was found worse than the report says
};
[[nodiscard]] const std::vector<survey::Named<Done>>& names(Done);
[[nodiscard]] std::string name_of(Done done);

/// A stay that was renewed, as it is now.
struct Renewed {
    int line = 0;
    std::string stay;  ///< its id in the survey of the report
    std::string make;
    std::string alloy;
    std::optional<Length> diameter;
    std::optional<Force> breaking_load;  ///< of the maker's certificate
    std::string certificate;             ///< its number
    std::string because;                 ///< why it is weaker than what it takes the place of
};

struct Part {
    int line = 0;
    std::string what;
    std::string certificate;
};

struct Measured {
    int line = 0;
    std::string what;
    std::string value;
};

/// One line of the works list.
struct Item {
    int line = 0;
    int number = 0;
    std::string asks;          ///< what the list asks for, in its words
    std::optional<Done> done;  ///< none: not answered
    std::string by;            ///< empty: the rigger himself
    std::optional<Date> on;
    std::string words;          ///< what was done, or why not
    std::string before, after;  ///< photos
    std::vector<Renewed> renewed;
    std::vector<Part> parts;
    std::vector<Measured> measured;
};

struct WorksDone {
    std::string file;
    std::string number;
    int report_line = 0;
    std::string report_file;    ///< beside the works file
    std::string report_number;  ///< of its survey
    std::string yacht;
    std::optional<Digest> report_sha256;
    int rigger_line = 0;
    std::string rigger, firm, qualification, contact;
    int photos_line = 0;
    std::string photos;  ///< folder
    std::vector<Item> items;
    std::vector<survey::Open> open;  ///< values still with a "?"

    [[nodiscard]] const Item* item(int number) const;
};

struct Reading {
    std::optional<WorksDone> works;  ///< nothing if there is any problem
    Problems problems;
};
/// Reads a works file's text strictly; `file` is its name in messages.
[[nodiscard]] Reading read_works(std::string_view text, const std::string& file);
/// As a form to fill in: every answer a "?".
[[nodiscard]] std::string write_works(const WorksDone& works);
/// Whether a text is a works file, by its root element.
[[nodiscard]] bool is_works_file(std::string_view text);

}  // namespace rigdeed::works
