#include "pdf/structure.hpp"

#include <algorithm>

#include "base/own_words.hpp"
#include "pdf/parts.hpp"

namespace rigdeed::pdf {

void StructureTree::add_page(HPDF_Page page, const std::vector<layout::ElementIndex>& marked) {
    page_objects_.push_back(page);
    marked_.push_back(marked);
}

void StructureTree::add_link(std::size_t page, HPDF_Dict annotation, layout::ElementIndex within) {
    annotations_.push_back({page, annotation, within, "Link"});
}

void StructureTree::add_form(std::size_t page, HPDF_Dict annotation) {
    annotations_.push_back({page, annotation, layout::artifact, "Form"});
}

/// Nodes in the order of the layout's elements, each with its pieces.
void StructureTree::grow() {
    for (const layout::Element& element : pages_.structure)
        nodes_.push_back(
            {element.type, element.alternative, element.heads_row, element.parent, {}, {}, false, nullptr});
    for (std::size_t page = 0; page < marked_.size(); ++page)
        for (std::size_t mcid = 0; mcid < marked_[page].size(); ++mcid)
            nodes_[static_cast<std::size_t>(marked_[page][mcid])].pieces.push_back(
                {page, static_cast<int>(mcid), nullptr});
    for (Annotation& one : annotations_) {
        one.node = static_cast<int>(nodes_.size());
        nodes_.push_back({one.type, {}, false, one.within, {}, {{one.page, -1, one.object}}, false, nullptr});
    }
    for (std::size_t i = 0; i < nodes_.size(); ++i)
        if (nodes_[i].parent >= 0)
            nodes_[static_cast<std::size_t>(nodes_[i].parent)].children.push_back(static_cast<int>(i));
}

void StructureTree::prune() {
    for (std::size_t i = nodes_.size(); i-- > 0;) {
        if (nodes_[i].pieces.empty() && !nodes_[i].kept) continue;
        for (int up = static_cast<int>(i); up >= 0 && !nodes_[static_cast<std::size_t>(up)].kept;
             up = nodes_[static_cast<std::size_t>(up)].parent)
            nodes_[static_cast<std::size_t>(up)].kept = true;
    }
    // A row has all its cells, the empty ones too.
    for (Node& node : nodes_)
        if (node.type == "TR" && node.kept)
            for (const int cell : node.children) nodes_[static_cast<std::size_t>(cell)].kept = true;
}

/// Its items have labels, which are numbers.
bool StructureTree::numbered(const Node& list) const {
    const auto has = [this](const Node& node, const char* type) {
        return std::any_of(node.children.begin(), node.children.end(), [&](int child) {
            const Node& one = nodes_[static_cast<std::size_t>(child)];
            return one.kept && one.type == type;
        });
    };
    return std::any_of(list.children.begin(), list.children.end(),
                       [&](int item) { return has(nodes_[static_cast<std::size_t>(item)], "Lbl"); });
}

void StructureTree::make_objects() {
    for (Node& node : nodes_)
        if (node.kept) node.object = document_.indirect_dict();
    for (Node& node : nodes_) {
        if (!node.kept) continue;
        document_.name(node.object, "Type", "StructElem");
        document_.name(node.object, "S", node.type.c_str());
        document_.add(node.object, "P", node.parent >= 0 ? nodes_[static_cast<std::size_t>(node.parent)].object : top_);
        if (node.type == "Figure")
            document_.text(node.object, "Alt",
                           node.alternative.empty() ? "–" : without_own_words_marks(node.alternative));
        if (node.type == "TH") {
            HPDF_Dict attributes = document_.dict();
            document_.name(attributes, "O", "Table");
            document_.name(attributes, "Scope", node.heads_row ? "Row" : "Column");
            document_.add(node.object, "A", attributes);
        }
        if (node.type == "L" && numbered(node)) {
            HPDF_Dict attributes = document_.dict();
            document_.name(attributes, "O", "List");
            document_.name(attributes, "ListNumbering", "Decimal");
            document_.add(node.object, "A", attributes);
        }
        write_kids(node);
    }
}

HPDF_Dict StructureTree::piece_object(const Piece& piece) {
    HPDF_Dict made = document_.dict();
    document_.name(made, "Type", piece.mcid >= 0 ? "MCR" : "OBJR");
    document_.add(made, "Pg", page_objects_[piece.page]);
    if (piece.mcid >= 0) document_.number(made, "MCID", piece.mcid);
    else document_.add(made, "Obj", piece.annotation);
    return made;
}

void StructureTree::write_kids(const Node& node) {
    HPDF_Array kids = document_.array();
    for (const Piece& piece : node.pieces) document_.add(kids, piece_object(piece));
    for (const int child : node.children)
        if (const Node& one = nodes_[static_cast<std::size_t>(child)]; one.kept) document_.add(kids, one.object);
    document_.add(node.object, "K", kids);
}

/// Pages by their number, annotations after them (ISO 32000-1, 14.7.4.4).
void StructureTree::write_parent_tree(HPDF_Dict root) {
    HPDF_Array numbers = document_.array();
    HPDF_INT32 key = 0;
    for (std::size_t page = 0; page < marked_.size(); ++page, ++key) {
        HPDF_Array elements = document_.array();
        for (const layout::ElementIndex element : marked_[page])
            document_.add(elements, nodes_[static_cast<std::size_t>(element)].object);
        HPDF_Array_AddNumber(numbers, key);
        document_.add(numbers, elements);
        document_.number(page_objects_[page], "StructParents", key);
        document_.name(page_objects_[page], "Tabs", "S");
    }
    for (const Annotation& one : annotations_) {
        HPDF_Array_AddNumber(numbers, key);
        document_.add(numbers, nodes_[static_cast<std::size_t>(one.node)].object);
        document_.number(one.object, "StructParent", key++);
    }
    HPDF_Dict tree = document_.dict();
    document_.add(tree, "Nums", numbers);
    document_.add(root, "ParentTree", tree);
    document_.number(root, "ParentTreeNextKey", key);
}

void StructureTree::finish() {
    grow();
    prune();
    HPDF_Dict root = document_.indirect_dict();
    document_.name(root, "Type", "StructTreeRoot");
    top_ = document_.indirect_dict();
    make_objects();
    document_.name(top_, "Type", "StructElem");
    document_.name(top_, "S", "Document");
    document_.add(top_, "P", root);
    HPDF_Array kids = document_.array();
    for (const Node& node : nodes_)
        if (node.kept && node.parent < 0) document_.add(kids, node.object);
    document_.add(top_, "K", kids);
    HPDF_Array tops = document_.array();
    document_.add(tops, top_);
    document_.add(root, "K", tops);
    write_parent_tree(root);
    document_.add(document_.catalog(), "StructTreeRoot", root);
    HPDF_Dict marks = document_.dict();
    document_.boolean(marks, "Marked", true);
    document_.add(document_.catalog(), "MarkInfo", marks);
}

}  // namespace rigdeed::pdf
