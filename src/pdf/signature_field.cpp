#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

constexpr std::size_t seal_bytes = 16384;  // a strings' limit is 32767 bytes (ISO 19005-3, 6.1.13)

// DocMDP with P 1: no change to the document is permitted (ISO 32000-1, table 254).
HPDF_Array no_change_permitted(Document& document) {
    HPDF_Dict parameters = document.dict();
    document.name(parameters, "Type", "TransformParams");
    document.number(parameters, "P", 1);
    document.name(parameters, "V", "1.2");
    HPDF_Dict reference = document.dict();
    document.name(reference, "Type", "SigRef");
    document.name(reference, "TransformMethod", "DocMDP");
    document.add(reference, "TransformParams", parameters);
    HPDF_Array references = document.array();
    document.add(references, reference);
    return references;
}

HPDF_Dict signature(Document& document, const DocumentFacts& facts, SignatureSlot& slot) {
    HPDF_Dict made = document.indirect_dict();
    document.name(made, "Type", "Sig");
    document.name(made, "Filter", "Adobe.PPKLite");
    document.name(made, "SubFilter", "ETSI.CAdES.detached");
    document.text(made, "Name", facts.signature->signer);
    document.text(made, "Reason", facts.signature->reason);
    if (!facts.signature->location.empty()) document.text(made, "Location", facts.signature->location);
    document.ascii(made, "M", pdf_date(facts.issued));
    document.add(made, "Reference", no_change_permitted(document));
    document.write_more(made, [&slot](std::size_t offset) {
        const std::string before = "/ByteRange ";
        const std::string between = "[0 0000000000 0000000000 0000000000]\n/Contents ";
        slot = {offset + before.size(), offset + before.size() + between.size(), 2 * seal_bytes};
        return before + between + "<" + std::string(slot.hex_digits, '0') + ">\n";
    });
    return made;
}

// The seal shows nowhere on the pages: a field without extent, with an empty appearance.
HPDF_Dict field(Document& document, HPDF_Page page, HPDF_Dict value) {
    constexpr int print_and_locked = 132;
    HPDF_Dict appearance = document.stream("q Q\n");
    document.name(appearance, "Type", "XObject");
    document.name(appearance, "Subtype", "Form");
    document.add(appearance, "BBox", document.numbers({0, 0, 0, 0}));
    document.add(appearance, "Resources", document.dict());
    HPDF_Dict appearances = document.dict();
    document.add(appearances, "N", appearance);

    HPDF_Dict made = document.indirect_dict();
    document.name(made, "Type", "Annot");
    document.name(made, "Subtype", "Widget");
    document.name(made, "FT", "Sig");
    document.ascii(made, "T", "Seal");
    document.ascii(made, "TU", "Seal of the report");
    document.add(made, "Rect", document.numbers({0, 0, 0, 0}));
    document.number(made, "F", print_and_locked);
    document.add(made, "P", page);
    document.add(made, "AP", appearances);
    document.add(made, "V", value);
    return made;
}

}  // namespace

void add_signature(Document& document, HPDF_Page first_page, const DocumentFacts& facts, SignatureSlot& slot,
                   StructureTree& structure) {
    constexpr int signed_and_append_only = 3;
    HPDF_Dict value = signature(document, facts, slot);
    HPDF_Dict widget = field(document, first_page, value);
    add_annotation(document, first_page, widget);
    structure.add_form(0, widget);

    HPDF_Array fields = document.array();
    document.add(fields, widget);
    HPDF_Dict form = document.dict();
    document.add(form, "Fields", fields);
    document.number(form, "SigFlags", signed_and_append_only);
    document.add(document.catalog(), "AcroForm", form);
    HPDF_Dict permissions = document.dict();
    document.add(permissions, "DocMDP", value);
    document.add(document.catalog(), "Perms", permissions);
}

}  // namespace rigdeed::pdf
