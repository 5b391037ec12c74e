#include <algorithm>

#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

HPDF_Dict file_specification(Document& document, const EmbeddedFile& file, std::int64_t issued) {
    HPDF_Dict content = document.stream(as_text(file.bytes));
    document.name(content, "Type", "EmbeddedFile");
    document.name(content, "Subtype", file.media_type.c_str());
    HPDF_Dict parameters = document.dict();
    document.number(parameters, "Size", static_cast<HPDF_INT32>(file.bytes.size()));
    document.ascii(parameters, "ModDate", pdf_date(issued));
    document.add(content, "Params", parameters);

    HPDF_Dict made = document.indirect_dict();
    document.name(made, "Type", "Filespec");
    document.ascii(made, "F", file.name);
    document.ascii(made, "UF", file.name);
    document.text(made, "Desc", file.description);
    document.name(made, "AFRelationship", file.relationship.c_str());
    HPDF_Dict versions = document.dict();
    document.add(versions, "F", content);
    document.add(versions, "UF", content);
    document.add(made, "EF", versions);
    return made;
}

}  // namespace

void add_files(Document& document, const DocumentFacts& facts) {
    if (facts.files.empty()) return;
    std::vector<const EmbeddedFile*> by_name;
    for (const EmbeddedFile& file : facts.files) by_name.push_back(&file);
    std::sort(by_name.begin(), by_name.end(), [](auto* a, auto* b) { return a->name < b->name; });

    HPDF_Array names = document.array(), associated = document.array();
    for (const EmbeddedFile* file : by_name) {
        HPDF_Dict specification = file_specification(document, *file, facts.issued);
        document.add(names, document.string(file->name));
        document.add(names, specification);
        document.add(associated, specification);
    }
    HPDF_Dict tree = document.dict();
    document.add(tree, "Names", names);
    HPDF_Dict trees = document.dict();
    document.add(trees, "EmbeddedFiles", tree);
    document.add(document.catalog(), "Names", trees);
    document.add(document.catalog(), "AF", associated);
}

}  // namespace rigdeed::pdf
