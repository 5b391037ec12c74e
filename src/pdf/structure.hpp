#pragma once

#include <vector>

#include "layout/page.hpp"
#include "pdf/document.hpp"

namespace rigdeed::pdf {

/// A marked-content sequence or an annotation that belongs to an element.
struct Piece {
    std::size_t page = 0;
    int mcid = -1;                   ///< -1: an annotation
    HPDF_Dict annotation = nullptr;  ///< indirect
};

/// The structure tree (ISO 32000-1, 14.7; ISO 14289-1): what each page's marked content and each annotation belongs to.
class StructureTree {
 public:
    StructureTree(Document& document, const layout::Pages& pages) : document_(document), pages_(pages) {}

    /// The elements of a page's sequences, by MCID.
    void add_page(HPDF_Page page, const std::vector<layout::ElementIndex>& marked);
    /// A link: an element of its own in the one it stands in.
    void add_link(std::size_t page, HPDF_Dict annotation, layout::ElementIndex within);
    /// The seal's field.
    void add_form(std::size_t page, HPDF_Dict annotation);
    /// Writes the tree into the catalog. Elements without content are left out, but for cells of tables.
    void finish();

 private:
    struct Node {
        std::string type;
        std::string alternative;
        bool heads_row = false;
        int parent = -1;
        std::vector<int> children;
        std::vector<Piece> pieces;
        bool kept = false;
        HPDF_Dict object = nullptr;
    };

    void grow();
    void prune();
    void make_objects();
    [[nodiscard]] bool numbered(const Node& list) const;
    void write_kids(const Node& node);
    HPDF_Dict piece_object(const Piece& piece);
    void write_parent_tree(HPDF_Dict root);

    Document& document_;
    const layout::Pages& pages_;
    std::vector<HPDF_Page> page_objects_;
    std::vector<std::vector<layout::ElementIndex>> marked_;
    struct Annotation {
        std::size_t page;
        HPDF_Dict object;
        layout::ElementIndex within;
        const char* type;
        int node = -1;
    };
    std::vector<Annotation> annotations_;
    std::vector<Node> nodes_;  ///< the layout's elements first, then those of annotations
    HPDF_Dict top_ = nullptr;
};

}  // namespace rigdeed::pdf
