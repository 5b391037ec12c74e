#include "base/error.hpp"
#include "base/own_words.hpp"
#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

using PageObjects = std::vector<HPDF_Page>;

// [page /XYZ 0 y null]: that height at the top of the window, at the zoom the reader has.
HPDF_Array destination(Document& document, HPDF_Page page, Points y_from_bottom) {
    HPDF_Array made = document.array();
    document.add(made, page);
    HPDF_Array_AddName(made, "XYZ");
    HPDF_Array_AddNumber(made, 0);
    HPDF_Array_AddReal(made, static_cast<HPDF_REAL>(y_from_bottom.value));
    document.add(made, document.null());
    return made;
}

HPDF_Page page_at(const PageObjects& pages, std::size_t index) {
    if (index >= pages.size()) throw Error("a link to a page that is not there", {}, {}, ExitCode::bug);
    return pages[index];
}

void add_link(Document& document, const layout::Pages& pages, const PageObjects& objects, std::size_t on,
              const layout::PlacedLink& link, StructureTree& structure) {
    constexpr int print = 4;
    const auto flipped = [&](Points y) { return (pages.size.height - y).value; };
    HPDF_Dict made = document.indirect_dict();
    document.name(made, "Type", "Annot");
    document.name(made, "Subtype", "Link");
    document.add(made, "Rect",
                 document.numbers({link.box.left().value, flipped(link.box.bottom()), link.box.right().value,
                                   flipped(link.box.top())}));
    document.add(made, "Border", document.numbers({0, 0, 0}));
    document.number(made, "F", print);
    document.add(made, "Dest", destination(document, page_at(objects, link.page), pages.size.height - link.y));
    if (!link.words.empty()) document.text(made, "Contents", without_own_words_marks(link.words));
    structure.add_link(on, made, link.element);
    add_annotation(document, objects[on], made);
}

// One node of the outline tree while it grows.
struct Node {
    HPDF_Dict object = nullptr;
    int level = -1;
    HPDF_Dict last_child = nullptr;
    int children = 0;
};

void close_node(Document& document, const Node& node) {
    if (node.last_child == nullptr) return;
    document.add(node.object, "Last", node.last_child);
    document.number(node.object, "Count", node.level < 0 ? node.children : -node.children);  // chapters open, rest shut
}

void add_bookmarks(Document& document, const layout::Pages& pages, const PageObjects& objects) {
    if (pages.bookmarks.empty()) return;
    HPDF_Dict root = document.indirect_dict();
    document.name(root, "Type", "Outlines");
    std::vector<Node> path{{root}};
    for (const layout::Bookmark& bookmark : pages.bookmarks) {
        while (path.size() > 1 && path.back().level >= bookmark.level) {
            close_node(document, path.back());
            path.pop_back();
        }
        Node& parent = path.back();
        HPDF_Dict made = document.indirect_dict();
        document.text(made, "Title", without_own_words_marks(bookmark.title));
        document.add(made, "Parent", parent.object);
        document.add(made, "Dest",
                     destination(document, page_at(objects, bookmark.page), pages.size.height - bookmark.y));
        if (parent.last_child == nullptr) {
            document.add(parent.object, "First", made);
        } else {
            document.add(made, "Prev", parent.last_child);
            document.add(parent.last_child, "Next", made);
        }
        parent.last_child = made;
        ++parent.children;
        path.push_back({made, bookmark.level});
    }
    for (; !path.empty(); path.pop_back()) close_node(document, path.back());
    document.add(document.catalog(), "Outlines", root);
}

void add_labels(Document& document, const layout::Pages& pages) {
    HPDF_Array numbers = document.array();
    for (std::size_t i = 0; i < pages.pages.size(); ++i) {
        HPDF_Dict label = document.dict();
        document.text(label, "P", pages.pages[i].label);
        HPDF_Array_AddNumber(numbers, static_cast<HPDF_INT32>(i));
        document.add(numbers, label);
    }
    HPDF_Dict labels = document.dict();
    document.add(labels, "Nums", numbers);
    document.add(document.catalog(), "PageLabels", labels);
}

}  // namespace

void add_annotation(Document& document, HPDF_Page page, HPDF_Dict annotation) {
    auto* list = static_cast<HPDF_Array>(HPDF_Dict_GetItem(page, "Annots", HPDF_OCLASS_ARRAY));
    if (list == nullptr) {
        list = document.array();
        document.add(page, "Annots", list);
    }
    document.add(list, annotation);
}

void add_navigation(Document& document, const layout::Pages& pages, const PageObjects& page_objects,
                    StructureTree& structure) {
    for (std::size_t i = 0; i < pages.pages.size(); ++i)
        for (const layout::PlacedItem& item : pages.pages[i].items)
            if (const auto* link = std::get_if<layout::PlacedLink>(&item))
                add_link(document, pages, page_objects, i, *link, structure);
    add_bookmarks(document, pages, page_objects);
    add_labels(document, pages);
}

}  // namespace rigdeed::pdf
