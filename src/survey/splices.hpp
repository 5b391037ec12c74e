#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "survey/edit.hpp"

namespace rigdeed::survey {

/// Turns edits into splices of one text: finds the place, follows the neighbours' indentation, line ends and quotes.
class Splicer {
 public:
    Splicer(std::string_view text, const std::string& file, const xml::Element& root);

    /// In order of their places. What is wrong with an edit goes to `problems`.
    [[nodiscard]] std::vector<Splice> run(const std::vector<Edit>& edits, Problems& problems) const;

 private:
    struct Work;
    struct Place;
    void plan(const SetAttribute& edit, Work& work) const;
    void plan(const TakeAttribute& edit, Work& work) const;
    void plan(const AddElement& edit, Work& work) const;
    void plan(const TakeElement& edit, Work& work) const;
    void plan(const AddComment& edit, Work& work) const;
    void plan(const TakeComment& edit, Work& work) const;
    void finish(Work& work) const;
    void take_out(const xml::Element* parent, std::vector<xml::Comment> pieces, Work& work) const;

    template <class Write>
    void add(Where where, std::size_t element, const Write& write, Work& work) const;
    [[nodiscard]] Place place_of(Where where, const xml::Element& element) const;
    [[nodiscard]] std::string written(const xml::Element& element, const Place& place) const;
    void write(std::string& out, const xml::Element& element, const Place& place, const std::string& indent) const;

    [[nodiscard]] const xml::Element& element_at(std::size_t at) const;
    [[nodiscard]] const xml::Element* parent_of(std::size_t at) const;
    [[nodiscard]] std::optional<std::size_t> last_inside(const xml::Element& parent) const;

    [[nodiscard]] std::optional<std::size_t> line_start(std::size_t at) const;
    [[nodiscard]] bool begins_line(std::size_t at) const;
    [[nodiscard]] std::optional<std::size_t> next_line(std::size_t end, bool past_comments) const;
    [[nodiscard]] std::string indent_of(std::size_t at) const;

    std::string_view text_;
    const std::string& file_;
    const xml::Element& root_;
    std::vector<xml::Comment> comments_;
    std::string line_end_;
    std::string step_;  ///< by how much a child stands further in than its parent
};

}  // namespace rigdeed::survey
