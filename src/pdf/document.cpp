#include "pdf/document.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "base/error.hpp"
#include "base/text.hpp"
#include "pdf/content.hpp"

namespace rigdeed::pdf {
namespace {

// libharu keeps the error in the document; throwing through C code is not an option.
void keep_quiet(HPDF_STATUS, HPDF_STATUS, void*) noexcept {}

HPDF_STATUS append(HPDF_Stream stream, const HPDF_BYTE* bytes, HPDF_UINT count) noexcept {
    try {
        static_cast<std::string*>(stream->attr)->append(reinterpret_cast<const char*>(bytes), count);
        return HPDF_OK;
    } catch (...) { return HPDF_FAILD_TO_ALLOC_MEM; }
}

JpegSource& jpeg_of(HPDF_Stream stream) { return *static_cast<JpegSource*>(stream->attr); }

HPDF_STATUS read_jpeg(HPDF_Stream stream, HPDF_BYTE* to, HPDF_UINT* count) noexcept {
    JpegSource& jpeg = jpeg_of(stream);
    const std::size_t left = jpeg.bytes->size() - jpeg.position;
    const std::size_t taken = std::min<std::size_t>(left, *count);
    std::memcpy(to, jpeg.bytes->data() + jpeg.position, taken);
    jpeg.position += taken;
    *count = static_cast<HPDF_UINT>(taken);
    return taken == left ? HPDF_STREAM_EOF : HPDF_OK;
}

HPDF_STATUS seek_jpeg(HPDF_Stream stream, HPDF_INT position, HPDF_WhenceMode) noexcept {
    jpeg_of(stream).position = static_cast<std::size_t>(position);
    return HPDF_OK;
}

HPDF_INT32 tell_jpeg(HPDF_Stream stream) noexcept { return static_cast<HPDF_INT32>(jpeg_of(stream).position); }
HPDF_UINT32 size_of_jpeg(HPDF_Stream stream) noexcept {
    return static_cast<HPDF_UINT32>(jpeg_of(stream).bytes->size());
}

HPDF_STATUS release_jpeg(HPDF_Dict dict) noexcept {
    jpeg_of(dict->stream).bytes = std::make_shared<const Bytes>();
    return HPDF_OK;
}

HPDF_STATUS call_writer(HPDF_Dict dict, HPDF_Stream to) noexcept {
    try {
        const auto& write = *static_cast<std::function<std::string(std::size_t)>*>(dict->attr);
        return HPDF_Stream_WriteStr(to, write(to->size).c_str());
    } catch (...) { return HPDF_FAILD_TO_ALLOC_MEM; }
}

bool is_plain_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= 0x20 && c < 0x7F; });
}

}  // namespace

Document::Document() : doc_(HPDF_New(keep_quiet, nullptr)) {
    if (doc_ == nullptr) throw Error("out of memory for the PDF");
    doc_->pdf_version = HPDF_VER_17;
    HPDF_SetCompressionMode(doc_, HPDF_COMP_ALL);
    HPDF_Dict_RemoveElement(doc_->info, "Producer");
    check();
}

Document::~Document() { HPDF_Free(doc_); }

void Document::check() const {
    const HPDF_STATUS code = HPDF_GetError(doc_);
    if (code == HPDF_OK) return;
    if (code == HPDF_FAILD_TO_ALLOC_MEM) throw Error("out of memory for the PDF");
    throw Error(
        "libharu refused with code " + std::to_string(code) + ", detail " + std::to_string(HPDF_GetErrorDetail(doc_)),
        {}, {}, ExitCode::bug);
}

template <class T>
T Document::checked(T object) {
    check();
    if (object == nullptr) throw Error("libharu refused without a reason", {}, {}, ExitCode::bug);
    return object;
}

HPDF_Page Document::add_page() { return checked(HPDF_AddPage(doc_)); }

void Document::page_size(HPDF_Page page, double width, double height) {
    HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width));
    HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height));
    check();
}

void Document::page_content(HPDF_Page page, std::string_view operators) {
    HPDF_Stream_Write(static_cast<HPDF_PageAttr>(page->attr)->stream,
                      reinterpret_cast<const HPDF_BYTE*>(operators.data()), static_cast<HPDF_UINT>(operators.size()));
    check();
}

HPDF_Dict Document::dict() { return checked(HPDF_Dict_New(doc_->mmgr)); }
HPDF_Array Document::array() { return checked(HPDF_Array_New(doc_->mmgr)); }
HPDF_Null Document::null() { return checked(HPDF_Null_New(doc_->mmgr)); }

HPDF_Dict Document::indirect_dict() {
    HPDF_Dict made = dict();
    HPDF_Xref_Add(doc_->xref, made);
    return checked(made);
}

HPDF_Dict Document::stream(std::string_view content, bool compressed) {
    HPDF_Dict made = checked(HPDF_DictStream_New(doc_->mmgr, doc_->xref));
    made->filter = compressed ? HPDF_STREAM_FILTER_FLATE_DECODE : HPDF_STREAM_FILTER_NONE;
    HPDF_Stream_Write(made->stream, reinterpret_cast<const HPDF_BYTE*>(content.data()),
                      static_cast<HPDF_UINT>(content.size()));
    return checked(made);
}

HPDF_Dict Document::jpeg_stream(std::shared_ptr<const Bytes> jpeg) {
    jpegs_.push_back(std::make_unique<JpegSource>(JpegSource{std::move(jpeg), 0}));
    HPDF_Dict made = checked(HPDF_DictStream_New(doc_->mmgr, doc_->xref));
    HPDF_Stream source = checked(
        HPDF_CallbackReader_New(doc_->mmgr, read_jpeg, seek_jpeg, tell_jpeg, size_of_jpeg, jpegs_.back().get()));
    HPDF_Stream_Free(made->stream);
    made->stream = source;
    made->filter = HPDF_STREAM_FILTER_DCT_DECODE;
    made->after_write_fn = release_jpeg;
    return made;
}

void Document::add(HPDF_Dict to, const char* key, void* object) {
    HPDF_Dict_Add(to, key, object);
    check();
}

void Document::add(HPDF_Array to, void* object) {
    HPDF_Array_Add(to, object);
    check();
}

void Document::name(HPDF_Dict to, const char* key, const char* value) {
    HPDF_Dict_AddName(to, key, value);
    check();
}

void Document::number(HPDF_Dict to, const char* key, HPDF_INT32 value) {
    HPDF_Dict_AddNumber(to, key, value);
    check();
}

void Document::real(HPDF_Dict to, const char* key, double value) {
    HPDF_Dict_AddReal(to, key, static_cast<HPDF_REAL>(value));
    check();
}

void Document::boolean(HPDF_Dict to, const char* key, bool value) {
    HPDF_Dict_AddBoolean(to, key, value ? HPDF_TRUE : HPDF_FALSE);
    check();
}

HPDF_String Document::string(const std::string& value) {
    return checked(HPDF_String_New(doc_->mmgr, value.c_str(), nullptr));
}

void Document::ascii(HPDF_Dict to, const char* key, const std::string& value) { add(to, key, string(value)); }

void Document::text(HPDF_Dict to, const char* key, std::string_view utf8) {
    if (is_plain_ascii(utf8)) return ascii(to, key, std::string(utf8));
    const Bytes units = utf16(utf8);
    add(to, key, binary(units.data(), units.size()));
}

HPDF_Binary Document::binary(const unsigned char* bytes, std::size_t count) {
    return checked(HPDF_Binary_New(doc_->mmgr, const_cast<HPDF_BYTE*>(bytes), static_cast<HPDF_UINT>(count)));
}

HPDF_Array Document::numbers(const std::vector<double>& values) {
    HPDF_Array made = array();
    for (const double value : values) {
        if (value == std::floor(value)) HPDF_Array_AddNumber(made, static_cast<HPDF_INT32>(value));
        else HPDF_Array_AddReal(made, static_cast<HPDF_REAL>(value));
    }
    return checked(made);
}

HPDF_Dict Document::sub_dict(HPDF_Dict of, const char* key) {
    if (auto* found = static_cast<HPDF_Dict>(HPDF_Dict_GetItem(of, key, HPDF_OCLASS_DICT))) return found;
    HPDF_Dict made = dict();
    add(of, key, made);
    return made;
}

void Document::write_more(HPDF_Dict dict, std::function<std::string(std::size_t)> write) {
    writers_.push_back(std::make_unique<std::function<std::string(std::size_t)>>(std::move(write)));
    dict->attr = writers_.back().get();
    dict->write_fn = call_writer;
}

std::string Document::write(std::size_t expected_size) {
    add(doc_->trailer, "Root", doc_->catalog);
    add(doc_->trailer, "Info", doc_->info);
    std::string file;
    file.reserve(expected_size);
    HPDF_Stream to = checked(HPDF_CallbackWriter_New(doc_->mmgr, append, &file));
    HPDF_Stream_WriteStr(to, "%PDF-1.7\n%\xB7\xBE\xAD\xAA\n");
    const HPDF_STATUS outcome = HPDF_Xref_WriteToStream(doc_->xref, to, nullptr);
    HPDF_Stream_Free(to);
    check();
    if (outcome != HPDF_OK) throw Error("out of memory for the PDF");
    return file;
}

}  // namespace rigdeed::pdf
