#pragma once

#include <string>
#include <vector>

#include "base/signature_slot.hpp"
#include "pdf/content.hpp"
#include "pdf/document.hpp"
#include "pdf/render.hpp"
#include "pdf/structure.hpp"

/// The parts of the file that render_pdf puts together, one source file each.
namespace rigdeed::pdf {

/// A composite font (ISO 32000-1, 9.7) whose description is filled in once all its characters are known.
[[nodiscard]] HPDF_Dict new_font(Document& document);
void fill_font(Document& document, HPDF_Dict font, const Subset& subset, std::size_t index);

/// An image XObject over the JPEG's own bytes; the picture's hold on them is given up.
[[nodiscard]] HPDF_Dict image_object(Document& document, layout::Image& image);

/// Links, bookmarks and page labels (ISO 32000-1, 12.3 and 12.4.2).
void add_navigation(Document& document, const layout::Pages& pages, const std::vector<HPDF_Page>& page_objects,
                    StructureTree& structure);
/// Appends to the page's /Annots.
void add_annotation(Document& document, HPDF_Page page, HPDF_Dict annotation);

/// Info dictionary, XMP packet, output intent, language, file identifier (ISO 19005-3, 6.2.3, 6.6 and 6.1.3).
void add_metadata(Document& document, const DocumentFacts& facts);
[[nodiscard]] std::string xmp_packet(const DocumentFacts& facts);
[[nodiscard]] std::string pdf_date(std::int64_t seconds);  ///< D:20261003091400+00'00'

/// Associated files (ISO 19005-3, 6.8).
void add_files(Document& document, const DocumentFacts& facts);

/// The one signature field, its dictionary with room for a seal, and the certification that allows no change
/// (ISO 32000-1, 12.8). `slot` is filled in when the document is written, and must live until then.
void add_signature(Document& document, HPDF_Page first_page, const DocumentFacts& facts, SignatureSlot& slot,
                   StructureTree& structure);

}  // namespace rigdeed::pdf
