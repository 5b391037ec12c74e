#include "survey/edit.hpp"

#include "base/bytes.hpp"
#include "base/error.hpp"
#include "base/file.hpp"
#include "survey/open_times.hpp"
#include "survey/read_survey.hpp"
#include "survey/splices.hpp"

namespace rigdeed::survey {
namespace {

/// The splices that undo these, in the text that comes out.
std::vector<Splice> undoing(std::string_view text, const std::vector<Splice>& splices) {
    std::vector<Splice> undo;
    std::size_t grown = 0, shrunk = 0;
    for (const Splice& splice : splices) {
        undo.push_back(
            {splice.at + grown - shrunk, splice.text.size(), std::string(text.substr(splice.at, splice.length))});
        grown += splice.text.size();
        shrunk += splice.length;
    }
    return undo;
}

using Check = Reading (*)(const std::string& text, const std::string& file);

Edited edited(std::string_view text, const std::string& file, const std::vector<Edit>& edits, Check check) {
    const xml::Reading read = xml::read(text, file);
    if (!read.root) return {std::nullopt, read.problems, {}};
    Problems problems;
    const std::vector<Splice> splices = Splicer(text, file, *read.root).run(edits, problems);
    if (!problems.empty()) return {std::nullopt, std::move(problems), {}};
    std::string result = spliced(text, splices);
    if (auto reading = check(result, file); !reading.survey) return {std::nullopt, std::move(reading.problems), {}};
    return {std::move(result), {}, undoing(text, splices)};
}

}  // namespace

Edited edit(std::string_view text, const std::string& file, const std::vector<Edit>& edits) {
    return edited(text, file, edits,
                  [](const std::string& result, const std::string& name) { return read_survey(result, name); });
}

Edited edit_with_times_open(std::string_view text, const std::string& file, const std::vector<Edit>& edits) {
    return edited(text, file, edits, [](const std::string& result, const std::string& name) {
        return read_survey(with_times_put_in(result, name).text, name);
    });
}

std::string spliced(std::string_view text, const std::vector<Splice>& splices) {
    std::string result;
    std::size_t at = 0;
    for (const Splice& splice : splices) {
        result += text.substr(at, splice.at - at);
        result += splice.text;
        at = splice.at + splice.length;
    }
    return result + std::string(text.substr(at));
}

void write_edited(const std::filesystem::path& path, std::string_view before, std::string_view after) {
    if (as_text(read_file(path, largest_survey)) != before)
        throw Error("was written to by somebody else meanwhile", path.string(), "run the command again");
    // A link stays one: what it leads to is written.
    write_file(std::filesystem::canonical(path), after);
}

const xml::Element* element_with_id(const xml::Element& root, std::string_view id) {
    for (const char* list : {"rig", "fittings"}) {
        const xml::Element* section = root.child(list);
        if (section == nullptr) continue;
        for (const xml::Element& element : section->children)
            if (element.get("id") == id) return &element;
    }
    return nullptr;
}

}  // namespace rigdeed::survey
