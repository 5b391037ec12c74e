#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

// Six capitals that tell this subset from every other in the file (ISO 32000-1, 9.6.4).
std::string tagged_name(std::size_t index) {
    return std::string("RIGDE") + static_cast<char>('A' + index) + "+" + std::string(Fonts::name(index));
}

std::string four_hex(unsigned value) {
    const unsigned char bytes[] = {static_cast<unsigned char>(value >> 8), static_cast<unsigned char>(value & 0xFF)};
    return to_hex(bytes, 2);
}

std::string to_unicode(const Subset& subset) {
    constexpr std::size_t block = 100;  // as many as one bfchar operator may have (Adobe technical note 5411)
    std::string map =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n";
    const auto& characters = subset.characters();
    for (std::size_t first = 1; first < characters.size(); first += block) {
        const std::size_t end = std::min(first + block, characters.size());
        map += std::to_string(end - first) + " beginbfchar\n";
        for (std::size_t code = first; code < end; ++code) {
            const Bytes units = utf16(encode_utf8(std::u32string(1, characters[code])));
            map += "<" + four_hex(static_cast<unsigned>(code)) + "> <" + to_hex(units).substr(4) + ">\n";
        }
        map += "endbfchar\n";
    }
    return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

std::vector<double> widths(const Subset& subset) {
    const Sfnt& font = subset.font();
    std::vector<double> result;
    for (const char32_t character : subset.characters())
        result.push_back(1000.0 * font.advance(font.glyph(character)) / font.shape().units_per_em);
    return result;
}

HPDF_Dict descriptor(Document& document, const Subset& subset, std::size_t index) {
    constexpr int symbolic = 4;  // the font's own codes
    const FontShape& shape = subset.font().shape();
    const auto scaled = [&](int units) { return std::round(1000.0 * units / shape.units_per_em); };
    HPDF_Dict made = document.indirect_dict();
    document.name(made, "Type", "FontDescriptor");
    document.name(made, "FontName", tagged_name(index).c_str());
    document.number(made, "Flags", symbolic);
    document.add(made, "FontBBox",
                 document.numbers({scaled(shape.left), scaled(shape.bottom), scaled(shape.right), scaled(shape.top)}));
    document.real(made, "ItalicAngle", shape.italic_angle);
    document.number(made, "Ascent", static_cast<HPDF_INT32>(scaled(shape.ascent)));
    document.number(made, "Descent", static_cast<HPDF_INT32>(scaled(shape.descent)));
    document.number(made, "CapHeight", static_cast<HPDF_INT32>(scaled(shape.cap_height)));
    document.number(made, "StemV", Fonts::stem_width(index));
    const std::string file = subset.file();
    HPDF_Dict program = document.stream(file);
    document.number(program, "Length1", static_cast<HPDF_INT32>(file.size()));
    document.add(made, "FontFile2", program);
    return made;
}

}  // namespace

HPDF_Dict new_font(Document& document) {
    HPDF_Dict font = document.indirect_dict();
    document.name(font, "Type", "Font");
    document.name(font, "Subtype", "Type0");
    return font;
}

void fill_font(Document& document, HPDF_Dict font, const Subset& subset, std::size_t index) {
    HPDF_Dict descendant = document.indirect_dict();
    document.name(descendant, "Type", "Font");
    document.name(descendant, "Subtype", "CIDFontType2");
    document.name(descendant, "BaseFont", tagged_name(index).c_str());
    HPDF_Dict system = document.dict();
    document.ascii(system, "Registry", "Adobe");
    document.ascii(system, "Ordering", "Identity");
    document.number(system, "Supplement", 0);
    document.add(descendant, "CIDSystemInfo", system);
    document.name(descendant, "CIDToGIDMap", "Identity");
    HPDF_Array all_widths = document.numbers({0});
    document.add(all_widths, document.numbers(widths(subset)));
    document.add(descendant, "W", all_widths);
    document.add(descendant, "FontDescriptor", descriptor(document, subset, index));

    document.name(font, "BaseFont", tagged_name(index).c_str());
    document.name(font, "Encoding", "Identity-H");
    HPDF_Array descendants = document.array();
    document.add(descendants, descendant);
    document.add(font, "DescendantFonts", descendants);
    document.add(font, "ToUnicode", document.stream(to_unicode(subset)));
}

}  // namespace rigdeed::pdf
