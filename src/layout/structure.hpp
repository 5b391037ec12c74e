#pragma once

#include <string>
#include <vector>

#include "layout/page.hpp"

namespace rigdeed::layout {

/// Grows the document's structure while blocks are set, in reading order.
class StructureBuilder {
 public:
    explicit StructureBuilder(std::vector<Element>& elements) : elements_(elements) {}

    ElementIndex open(std::string type, std::string alternative = {}) {
        elements_.push_back({std::move(type), stack_.empty() ? artifact : stack_.back(), std::move(alternative)});
        stack_.push_back(static_cast<ElementIndex>(elements_.size()) - 1);
        if (elements_.back().type.size() == 2 && elements_.back().type[0] == 'H') heading_ = elements_.back().type;
        return stack_.back();
    }
    void close() { stack_.pop_back(); }

    /// The innermost element; artifact if none is open.
    [[nodiscard]] ElementIndex current() const { return stack_.empty() ? artifact : stack_.back(); }
    /// Whether text may stand in it directly.
    [[nodiscard]] bool takes_text() const {
        if (stack_.empty()) return false;
        const std::string& type = elements_[static_cast<std::size_t>(stack_.back())].type;
        return type != "Table" && type != "TR" && type != "Sect" && type != "TOC" && type != "TOCI" && type != "L" &&
               type != "LI" && type != "LBody";
    }
    /// The head of a row that is open: it tells what the other cells are about.
    void head_row() { elements_[static_cast<std::size_t>(stack_.back())].heads_row = true; }
    /// Of a heading below the last one that was no deeper than a section: levels are never skipped.
    [[nodiscard]] std::string heading_below() const { return heading_ == "H1" ? "H2" : "H3"; }

 private:
    std::vector<Element>& elements_;
    std::vector<ElementIndex> stack_;
    std::string heading_ = "H1";  ///< the last one opened
};

/// Holds an element open for as long as it lives.
class Tagged {
 public:
    Tagged(StructureBuilder& builder, std::string type, std::string alternative = {}) : builder_(&builder) {
        builder.open(std::move(type), std::move(alternative));
    }
    /// A paragraph, unless something that takes text is open already.
    static Tagged paragraph(StructureBuilder& builder) { return Tagged(builder.takes_text() ? nullptr : &builder); }
    ~Tagged() {
        if (builder_ != nullptr) builder_->close();
    }
    Tagged(const Tagged&) = delete;
    Tagged& operator=(const Tagged&) = delete;

 private:
    explicit Tagged(StructureBuilder* builder) : builder_(builder) {
        if (builder != nullptr) builder->open("P");
    }
    StructureBuilder* builder_;
};

}  // namespace rigdeed::layout
