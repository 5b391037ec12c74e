#pragma once

#include <array>
#include <string_view>

#include "verify/schema.hpp"

namespace rigdeed::verify {

/// What may stand under a key.
enum class Is {
    name,     ///< and it is `exact`, if that is given; several are parted by blanks
    integer,  ///< the same
    number,   ///< integer or real
    boolean,
    text,
    names,        ///< an array of names; each is one of `exact`
    numbers,      ///< an array of numbers
    texts,        ///< an array of texts
    widths,       ///< [0 [numbers]]
    destination,  ///< [page /XYZ number number null]
    byte_range,
    object,    ///< a reference to an object in the role of `child`
    dict,      ///< a direct dictionary in that role
    objects,   ///< an array of references to such objects
    dicts,     ///< an array of direct dictionaries
    numbered,  ///< an array of integer and dictionary by turns
    named,     ///< an array of text and reference by turns
    parent,    ///< a reference to such an object or to the root of the structure
    kids,      ///< an array of such objects and of direct dictionaries in the role of a piece of content
    owners,    ///< an array of integers and such objects, or arrays of them, by turns
};

struct Row {
    Role owner;
    std::string_view key;  ///< "F#": the letter and a number
    Is is;
    Role child = Role::none;
    std::string_view exact = {};
};

/// Everything a report may hold. What is not here makes a file not one of ours: no actions, no scripts, no forms but
/// the seal, no other annotations, no references out of the file.
inline constexpr std::array schema{
    Row{Role::trailer, "ID", Is::texts},
    Row{Role::trailer, "Root", Is::object, Role::catalog},
    Row{Role::trailer, "Info", Is::object, Role::info},
    Row{Role::trailer, "Size", Is::integer},

    Row{Role::catalog, "Type", Is::name, Role::none, "Catalog"},
    Row{Role::catalog, "Pages", Is::object, Role::pages},
    Row{Role::catalog, "Outlines", Is::object, Role::outline},
    Row{Role::catalog, "PageLabels", Is::dict, Role::labels},
    Row{Role::catalog, "Metadata", Is::object, Role::metadata},
    Row{Role::catalog, "OutputIntents", Is::dicts, Role::intent},
    Row{Role::catalog, "Lang", Is::text},
    Row{Role::catalog, "ViewerPreferences", Is::dict, Role::preferences},
    Row{Role::catalog, "Names", Is::dict, Role::name_trees},
    Row{Role::catalog, "AF", Is::objects, Role::filespec},
    Row{Role::catalog, "AcroForm", Is::dict, Role::form},
    Row{Role::catalog, "Perms", Is::dict, Role::permissions},
    Row{Role::catalog, "StructTreeRoot", Is::object, Role::structure_root},
    Row{Role::catalog, "MarkInfo", Is::dict, Role::marks},

    Row{Role::marks, "Marked", Is::boolean},
    Row{Role::structure_root, "Type", Is::name, Role::none, "StructTreeRoot"},
    Row{Role::structure_root, "K", Is::objects, Role::element},
    Row{Role::structure_root, "ParentTree", Is::dict, Role::parent_tree},
    Row{Role::structure_root, "ParentTreeNextKey", Is::integer},
    Row{Role::parent_tree, "Nums", Is::owners, Role::element},
    Row{Role::element, "Type", Is::name, Role::none, "StructElem"},
    Row{Role::element, "S", Is::name, Role::none,
        "Document Sect H1 H2 H3 P L LI Lbl LBody TOC TOCI Reference Caption Table TR TH TD Figure Link Form"},
    Row{Role::element, "P", Is::parent, Role::element},
    Row{Role::element, "Alt", Is::text},
    Row{Role::element, "A", Is::dict, Role::attributes},
    Row{Role::element, "K", Is::kids, Role::element},
    Row{Role::attributes, "O", Is::name, Role::none, "Table List"},
    Row{Role::attributes, "Scope", Is::name, Role::none, "Column Row"},
    Row{Role::attributes, "ListNumbering", Is::name, Role::none, "Decimal"},
    Row{Role::content_piece, "Type", Is::name, Role::none, "MCR OBJR"},
    Row{Role::content_piece, "Pg", Is::object, Role::page},
    Row{Role::content_piece, "MCID", Is::integer},
    Row{Role::content_piece, "Obj", Is::object, Role::annotation},

    Row{Role::info, "Title", Is::text},
    Row{Role::info, "Author", Is::text},
    Row{Role::info, "Subject", Is::text},
    Row{Role::info, "Creator", Is::text},
    Row{Role::info, "Producer", Is::text},
    Row{Role::info, "CreationDate", Is::text},
    Row{Role::info, "ModDate", Is::text},

    Row{Role::pages, "Type", Is::name, Role::none, "Pages"},
    Row{Role::pages, "Kids", Is::objects, Role::page},
    Row{Role::pages, "Count", Is::integer},
    Row{Role::page, "Type", Is::name, Role::none, "Page"},
    Row{Role::page, "Parent", Is::object, Role::pages},
    Row{Role::page, "MediaBox", Is::numbers},
    Row{Role::page, "Contents", Is::object, Role::plain_stream},
    Row{Role::page, "Resources", Is::dict, Role::resources},
    Row{Role::page, "Annots", Is::objects, Role::annotation},
    Row{Role::page, "StructParents", Is::integer},
    Row{Role::page, "Tabs", Is::name, Role::none, "S"},

    Row{Role::resources, "ProcSet", Is::names, Role::none, "PDF Text ImageB ImageC ImageI"},
    Row{Role::resources, "Font", Is::dict, Role::fonts},
    Row{Role::resources, "XObject", Is::dict, Role::images},
    Row{Role::resources, "ExtGState", Is::dict, Role::opacities},
    Row{Role::fonts, "F#", Is::object, Role::font},
    Row{Role::images, "I#", Is::object, Role::image},
    Row{Role::opacities, "A#", Is::object, Role::opacity},
    Row{Role::opacity, "Type", Is::name, Role::none, "ExtGState"},
    Row{Role::opacity, "ca", Is::number},
    Row{Role::opacity, "CA", Is::number},

    Row{Role::font, "Type", Is::name, Role::none, "Font"},
    Row{Role::font, "Subtype", Is::name, Role::none, "Type0"},
    Row{Role::font, "BaseFont", Is::name},
    Row{Role::font, "Encoding", Is::name, Role::none, "Identity-H"},
    Row{Role::font, "DescendantFonts", Is::objects, Role::descendant},
    Row{Role::font, "ToUnicode", Is::object, Role::plain_stream},
    Row{Role::descendant, "Type", Is::name, Role::none, "Font"},
    Row{Role::descendant, "Subtype", Is::name, Role::none, "CIDFontType2"},
    Row{Role::descendant, "BaseFont", Is::name},
    Row{Role::descendant, "CIDSystemInfo", Is::dict, Role::system},
    Row{Role::descendant, "CIDToGIDMap", Is::name, Role::none, "Identity"},
    Row{Role::descendant, "W", Is::widths},
    Row{Role::descendant, "FontDescriptor", Is::object, Role::descriptor},
    Row{Role::system, "Registry", Is::text},
    Row{Role::system, "Ordering", Is::text},
    Row{Role::system, "Supplement", Is::integer, Role::none, "0"},
    Row{Role::descriptor, "Type", Is::name, Role::none, "FontDescriptor"},
    Row{Role::descriptor, "FontName", Is::name},
    Row{Role::descriptor, "Flags", Is::integer},
    Row{Role::descriptor, "FontBBox", Is::numbers},
    Row{Role::descriptor, "ItalicAngle", Is::number},
    Row{Role::descriptor, "Ascent", Is::integer},
    Row{Role::descriptor, "Descent", Is::integer},
    Row{Role::descriptor, "CapHeight", Is::integer},
    Row{Role::descriptor, "StemV", Is::integer},
    Row{Role::descriptor, "FontFile2", Is::object, Role::program},

    Row{Role::program, "Length", Is::object, Role::length},
    Row{Role::program, "Length1", Is::integer},
    Row{Role::program, "Filter", Is::names, Role::none, "FlateDecode"},
    Row{Role::plain_stream, "Length", Is::object, Role::length},
    Row{Role::plain_stream, "Filter", Is::names, Role::none, "FlateDecode"},
    Row{Role::image, "Length", Is::object, Role::length},
    Row{Role::image, "Type", Is::name, Role::none, "XObject"},
    Row{Role::image, "Subtype", Is::name, Role::none, "Image"},
    Row{Role::image, "Width", Is::integer},
    Row{Role::image, "Height", Is::integer},
    Row{Role::image, "ColorSpace", Is::name, Role::none, "DeviceGray DeviceRGB"},
    Row{Role::image, "BitsPerComponent", Is::integer, Role::none, "8"},
    Row{Role::image, "Filter", Is::names, Role::none, "DCTDecode"},

    Row{Role::outline, "Type", Is::name, Role::none, "Outlines"},
    Row{Role::outline, "Title", Is::text},
    Row{Role::outline, "Parent", Is::object, Role::outline},
    Row{Role::outline, "First", Is::object, Role::outline},
    Row{Role::outline, "Last", Is::object, Role::outline},
    Row{Role::outline, "Prev", Is::object, Role::outline},
    Row{Role::outline, "Next", Is::object, Role::outline},
    Row{Role::outline, "Count", Is::integer},
    Row{Role::outline, "Dest", Is::destination},
    Row{Role::labels, "Nums", Is::numbered, Role::label},
    Row{Role::label, "P", Is::text},

    Row{Role::metadata, "Length", Is::object, Role::length},
    Row{Role::metadata, "Type", Is::name, Role::none, "Metadata"},
    Row{Role::metadata, "Subtype", Is::name, Role::none, "XML"},
    Row{Role::intent, "Type", Is::name, Role::none, "OutputIntent"},
    Row{Role::intent, "S", Is::name, Role::none, "GTS_PDFA1"},
    Row{Role::intent, "OutputConditionIdentifier", Is::text},
    Row{Role::intent, "RegistryName", Is::text},
    Row{Role::intent, "Info", Is::text},
    Row{Role::intent, "DestOutputProfile", Is::object, Role::profile},
    Row{Role::profile, "Length", Is::object, Role::length},
    Row{Role::profile, "N", Is::integer, Role::none, "3"},
    Row{Role::profile, "Filter", Is::names, Role::none, "FlateDecode"},
    Row{Role::preferences, "DisplayDocTitle", Is::boolean},

    Row{Role::name_trees, "EmbeddedFiles", Is::dict, Role::file_tree},
    Row{Role::file_tree, "Names", Is::named, Role::filespec},
    Row{Role::filespec, "Type", Is::name, Role::none, "Filespec"},
    Row{Role::filespec, "F", Is::text},
    Row{Role::filespec, "UF", Is::text},
    Row{Role::filespec, "Desc", Is::text},
    Row{Role::filespec, "AFRelationship", Is::name, Role::none, "Source Data"},
    Row{Role::filespec, "EF", Is::dict, Role::file_versions},
    Row{Role::file_versions, "F", Is::object, Role::file},
    Row{Role::file_versions, "UF", Is::object, Role::file},
    Row{Role::file, "Length", Is::object, Role::length},
    Row{Role::file, "Type", Is::name, Role::none, "EmbeddedFile"},
    Row{Role::file, "Subtype", Is::name, Role::none, "text#2Fxml text#2Fcsv"},
    Row{Role::file, "Params", Is::dict, Role::file_parameters},
    Row{Role::file, "Filter", Is::names, Role::none, "FlateDecode"},
    Row{Role::file_parameters, "Size", Is::integer},
    Row{Role::file_parameters, "ModDate", Is::text},

    Row{Role::link, "Type", Is::name, Role::none, "Annot"},
    Row{Role::link, "Subtype", Is::name, Role::none, "Link"},
    Row{Role::link, "Rect", Is::numbers},
    Row{Role::link, "Border", Is::numbers},
    Row{Role::link, "F", Is::integer, Role::none, "4"},
    Row{Role::link, "Dest", Is::destination},
    Row{Role::link, "Contents", Is::text},
    Row{Role::link, "StructParent", Is::integer},

    Row{Role::form, "Fields", Is::objects, Role::widget},
    Row{Role::form, "SigFlags", Is::integer, Role::none, "3"},
    Row{Role::permissions, "DocMDP", Is::object, Role::signature},
    Row{Role::widget, "Type", Is::name, Role::none, "Annot"},
    Row{Role::widget, "Subtype", Is::name, Role::none, "Widget"},
    Row{Role::widget, "FT", Is::name, Role::none, "Sig"},
    Row{Role::widget, "T", Is::text},
    Row{Role::widget, "TU", Is::text},
    Row{Role::widget, "StructParent", Is::integer},
    Row{Role::widget, "Rect", Is::numbers},
    Row{Role::widget, "F", Is::integer, Role::none, "132"},
    Row{Role::widget, "P", Is::object, Role::page},
    Row{Role::widget, "AP", Is::dict, Role::appearances},
    Row{Role::widget, "V", Is::object, Role::signature},
    Row{Role::appearances, "N", Is::object, Role::appearance},
    Row{Role::appearance, "Length", Is::object, Role::length},
    Row{Role::appearance, "Type", Is::name, Role::none, "XObject"},
    Row{Role::appearance, "Subtype", Is::name, Role::none, "Form"},
    Row{Role::appearance, "BBox", Is::numbers},
    Row{Role::appearance, "Resources", Is::dict, Role::none},
    Row{Role::appearance, "Filter", Is::names, Role::none, "FlateDecode"},
    Row{Role::signature, "Type", Is::name, Role::none, "Sig"},
    Row{Role::signature, "Filter", Is::name, Role::none, "Adobe.PPKLite"},
    Row{Role::signature, "SubFilter", Is::name, Role::none, "ETSI.CAdES.detached"},
    Row{Role::signature, "Name", Is::text},
    Row{Role::signature, "Reason", Is::text},
    Row{Role::signature, "Location", Is::text},
    Row{Role::signature, "M", Is::text},
    Row{Role::signature, "Reference", Is::dicts, Role::reference},
    Row{Role::signature, "ByteRange", Is::byte_range},
    Row{Role::signature, "Contents", Is::text},
    Row{Role::reference, "Type", Is::name, Role::none, "SigRef"},
    Row{Role::reference, "TransformMethod", Is::name, Role::none, "DocMDP"},
    Row{Role::reference, "TransformParams", Is::dict, Role::parameters},
    Row{Role::parameters, "Type", Is::name, Role::none, "TransformParams"},
    Row{Role::parameters, "P", Is::integer, Role::none, "1"},
    Row{Role::parameters, "V", Is::name, Role::none, "1.2"},
};

}  // namespace rigdeed::verify
