#pragma once

#include <hpdf.h>
#include <hpdf_doc.h>

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"

/// The object graph of a PDF file, kept and written by libharu. Its errors stick to the document and some calls fail
/// without a word, so every call here ends in check(). Objects belong to the document once added to it.
namespace rigdeed::pdf {

/// JPEG bytes that are let go as soon as they stand in the file.
struct JpegSource {
    std::shared_ptr<const Bytes> bytes;
    std::size_t position = 0;
};

class Document {
 public:
    Document();
    ~Document();
    Document(const Document&) = delete;
    Document& operator=(const Document&) = delete;

    [[nodiscard]] HPDF_Dict catalog() const { return doc_->catalog; }
    [[nodiscard]] HPDF_Dict trailer() const { return doc_->trailer; }
    [[nodiscard]] HPDF_Dict info() const { return doc_->info; }

    HPDF_Page add_page();
    void page_size(HPDF_Page page, double width, double height);
    void page_content(HPDF_Page page, std::string_view operators);
    HPDF_Dict dict();           ///< direct, until added to exactly one parent
    HPDF_Dict indirect_dict();  ///< an object of its own; may be added to several parents
    HPDF_Array array();
    HPDF_Dict stream(std::string_view content, bool compressed = true);
    HPDF_Dict jpeg_stream(std::shared_ptr<const Bytes> jpeg);

    void add(HPDF_Dict to, const char* key, void* object);
    void add(HPDF_Array to, void* object);
    void name(HPDF_Dict to, const char* key, const char* value);
    void number(HPDF_Dict to, const char* key, HPDF_INT32 value);
    void real(HPDF_Dict to, const char* key, double value);
    void boolean(HPDF_Dict to, const char* key, bool value);
    void ascii(HPDF_Dict to, const char* key, const std::string& value);  ///< (…)
    void text(HPDF_Dict to, const char* key, std::string_view utf8);      ///< as UTF-16BE, if it is not ASCII
    HPDF_Binary binary(const unsigned char* bytes, std::size_t count);
    HPDF_String string(const std::string& value);
    HPDF_Null null();
    HPDF_Array numbers(const std::vector<double>& values);
    HPDF_Dict sub_dict(HPDF_Dict of, const char* key);  ///< the dictionary under that key, made if there is none

    /// `write` is called where the dictionary's entries end; it returns their text, given the offset in the file.
    void write_more(HPDF_Dict dict, std::function<std::string(std::size_t)> write);

    /// The whole file. The document can be written once.
    [[nodiscard]] std::string write(std::size_t expected_size);

 private:
    template <class T>
    T checked(T object);
    void check() const;

    HPDF_Doc doc_ = nullptr;
    std::vector<std::unique_ptr<JpegSource>> jpegs_;
    std::vector<std::unique_ptr<std::function<std::string(std::size_t)>>> writers_;
};

}  // namespace rigdeed::pdf
