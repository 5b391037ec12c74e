#include "pdf/render.hpp"

#include <map>

#include "base/error.hpp"
#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

// The objects that content streams call by name, made when the first page uses them.
class SharedObjects {
 public:
    SharedObjects(Document& document, layout::Pages& pages) : document_(document), pages_(pages) {}

    void add_to(HPDF_Page page, const Content& content) {
        HPDF_Dict resources = document_.sub_dict(page, "Resources");
        for (const std::size_t index : content.fonts) add(resources, "Font", "F", index, font(index));
        for (const std::size_t index : content.images) add(resources, "XObject", "I", index, image(index));
        for (const int alpha : content.alphas)
            add(resources, "ExtGState", "A", static_cast<std::size_t>(alpha), opacity(alpha));
    }

    void fill_fonts(const Typesetting& typesetting) {
        for (const auto& [index, font] : fonts_) fill_font(document_, font, typesetting.subsets[index], index);
    }

 private:
    void add(HPDF_Dict resources, const char* kind, const char* letter, std::size_t number, HPDF_Dict object) {
        document_.add(document_.sub_dict(resources, kind), (letter + std::to_string(number)).c_str(), object);
    }

    HPDF_Dict font(std::size_t index) {
        HPDF_Dict& known = fonts_[index];
        if (known == nullptr) known = new_font(document_);
        return known;
    }

    HPDF_Dict image(std::size_t index) {
        HPDF_Dict& known = images_[index];
        if (known == nullptr) known = image_object(document_, pages_.images[index]);
        return known;
    }

    HPDF_Dict opacity(int thousandths) {
        HPDF_Dict& known = opacities_[thousandths];
        if (known != nullptr) return known;
        known = document_.indirect_dict();
        document_.name(known, "Type", "ExtGState");
        document_.real(known, "ca", thousandths / 1000.0);
        document_.real(known, "CA", thousandths / 1000.0);
        return known;
    }

    Document& document_;
    layout::Pages& pages_;
    std::map<std::size_t, HPDF_Dict> fonts_, images_;
    std::map<int, HPDF_Dict> opacities_;
};

std::vector<HPDF_Page> add_pages(Document& document, layout::Pages& pages, StructureTree& structure) {
    Typesetting typesetting;
    SharedObjects shared(document, pages);
    std::vector<HPDF_Page> objects;
    for (const layout::Page& page : pages.pages) {
        const Content content = page_content(page, pages, typesetting);
        objects.push_back(document.add_page());
        document.page_size(objects.back(), pages.size.width.value, pages.size.height.value);
        document.page_content(objects.back(), content.operators);
        shared.add_to(objects.back(), content);
        structure.add_page(objects.back(), content.marked);
    }
    shared.fill_fonts(typesetting);
    return objects;
}

std::size_t expected_size(const layout::Pages& pages, const DocumentFacts& facts) {
    std::size_t size = 200'000 + 6'000 * pages.pages.size();
    for (const layout::Image& image : pages.images) size += 500 + (image.jpeg ? image.jpeg->size() : 0);
    for (const EmbeddedFile& file : facts.files) size += file.bytes.size() / 3;
    return size;
}

}  // namespace

RenderedPdf render_pdf(layout::Pages pages, DocumentFacts facts) {
    if (pages.pages.empty()) throw Error("a PDF without pages", {}, {}, ExitCode::bug);
    const std::size_t size = expected_size(pages, facts);
    SignatureSlot slot;
    Document document;
    StructureTree structure(document, pages);
    const std::vector<HPDF_Page> page_objects = add_pages(document, pages, structure);
    add_navigation(document, pages, page_objects, structure);
    add_metadata(document, facts);
    add_files(document, facts);
    if (facts.signature) add_signature(document, page_objects.front(), facts, slot, structure);
    structure.finish();
    facts.files.clear();
    pages.images.clear();
    RenderedPdf rendered{document.write(size), {}};
    if (facts.signature) rendered.slot = slot;
    return rendered;
}

}  // namespace rigdeed::pdf
