#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/xml.hpp"
#include "survey/survey.hpp"

/// What the marking page hands back: a small file of statements, each with the old value it knew. templates/marks.xsd
/// says what it may hold.
namespace rigdeed::marks {

inline constexpr std::string_view marks_namespace = "urn:rigdeed:marks:1";
inline constexpr std::uint64_t largest_marks = 16 * 1024 * 1024;  ///< bytes

enum class About { look, sign, not_seen, measured, scale, other };

/// What stands at a place of the survey: the attributes of its element but for those that name the place, and words.
struct Cell {
    std::map<std::string, std::string> attributes;
    std::string words;

    bool operator==(const Cell&) const = default;
    /// As a message shows it: far="A0012" close="A0013".
    [[nodiscard]] std::string text() const;
};

struct Statement {
    int line = 0;
    About about = About::look;
    std::string fitting;              ///< id; empty for what is said of a photo
    std::optional<survey::Way> pass;  ///< of a look, a sign, and of not seen in one pass
    std::string name;                 ///< of a measure, or of a photo
    std::optional<Cell> was, is;      ///< none: nothing stood there, or is to stand there

    /// "cap-port-low, up, sign"
    [[nodiscard]] std::string label() const;
};

struct Marks {
    std::string file;           ///< the path it was read from, for messages
    std::string number;         ///< of the survey
    std::string survey_sha256;  ///< of the survey file that the page was made from, lower-case hex
    std::vector<Statement> statements;
};

struct Reading {
    std::optional<Marks> marks;  ///< nothing if there is any problem
    Problems problems;
};

/// Reads strictly; every value that a statement brings is one that the survey's reader takes.
[[nodiscard]] Reading read_marks(std::string_view text, const std::string& file);

/// The same file again, but for its layout.
[[nodiscard]] std::string write_marks(const Marks& marks);

/// How statements of one kind are written, and where in the survey they belong.
struct Shape {
    About about;
    std::string_view element;                  ///< of the statement
    std::string_view in_survey;                ///< the element that it speaks of
    std::vector<std::string_view> attributes;  ///< of that, in the order they are written
    std::string_view name;                     ///< attribute that names a measure or photo, in both; else empty
    bool of_fitting = true;
    bool words = false;
};
[[nodiscard]] const Shape& shape_of(About about);
[[nodiscard]] const std::vector<Shape>& shapes();

/// What an element of the survey says, as a statement would.
[[nodiscard]] Cell cell_of(const xml::Element& element, const Shape& shape);

}  // namespace rigdeed::marks
