#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/problem.hpp"
#include "base/xml.hpp"

/// Filling in a survey file that a person wrote: what is not edited stays byte for byte, comments, order, line ends,
/// indentation, quotes and the spelling of entities. Elements are named by the offset of their '<' in the text that is
/// edited, as `xml::read` gives it.
namespace rigdeed::survey {

/// In the quotes of the attributes beside it; nothing is done where it has that value already.
struct SetAttribute {
    std::size_t element;
    std::string name;
    std::string value;
};

/// Nothing is done where there is none.
struct TakeAttribute {
    std::size_t element;
    std::string name;
};

enum class Where { before, after, last_in };  ///< as a sibling, or as the last child

/// On a line of its own if its neighbours stand so, with their indentation.
struct AddElement {
    Where where;
    std::size_t element;
    xml::Element added;  ///< name, attributes, children, text; its lines and places do not count
};

/// With its line, if it stands alone on it. An element that holds nothing any more then ends in "/>".
struct TakeElement {
    std::size_t element;
};

struct AddComment {
    Where where;
    std::size_t element;
    std::string words;  ///< what stands between "<!--" and "-->": no "--" in it, no '-' at its end
};

struct TakeComment {
    std::size_t comment;  ///< the offset of its '<'
};

using Edit = std::variant<SetAttribute, TakeAttribute, AddElement, TakeElement, AddComment, TakeComment>;

/// A piece of a text that gives way to another.
struct Splice {
    std::size_t at = 0;
    std::size_t length = 0;
    std::string text;
};

struct Edited {
    std::optional<std::string> text;  ///< nothing if there is any problem
    Problems problems;                ///< of the text given, of an edit, or of the survey that would come out
    std::vector<Splice> undo;         ///< what turns `text` into the text given again
};

/// All edits together, applied to `text`; their offsets are those of `text`. What comes out was read by `read_survey`
/// without problems. `file` is its name in messages. Throws Error (a bug) if an offset is none of an element or a
/// comment, or two edits want the same bytes.
[[nodiscard]] Edited edit(std::string_view text, const std::string& file, const std::vector<Edit>& edits);

/// The same, with looks whose time is open as `with_times_put_in` has it.
[[nodiscard]] Edited edit_with_times_open(std::string_view text, const std::string& file,
                                          const std::vector<Edit>& edits);

/// `splices` do not overlap and are in order of their places; those at one place are put in one after the other.
[[nodiscard]] std::string spliced(std::string_view text, const std::vector<Splice>& splices);

/// Writes `after` in the place of `before`, as `write_file` does. Throws Error if the file no longer holds `before`:
/// somebody has written to it meanwhile.
void write_edited(const std::filesystem::path& path, std::string_view before, std::string_view after);

/// The <stay> or <fitting> with this id; null if there is none.
[[nodiscard]] const xml::Element* element_with_id(const xml::Element& root, std::string_view id);

}  // namespace rigdeed::survey
