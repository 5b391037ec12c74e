#include <zlib.h>

#include <stdexcept>
#include <vector>

#include "reopen/forger.hpp"
#include "seal/seal.hpp"
#include "verify/sample_report.hpp"

namespace rigdeed::sample {
namespace {

constexpr std::string_view stream_begin = "stream\r\n", stream_end = "\nendstream";

std::size_t found(std::size_t at) {
    if (at == std::string::npos) throw std::logic_error("the report has no such part to forge");
    return at;
}

// Where the n-th object with this entry begins.
std::size_t object_with(const std::string& report, std::string_view entry, std::size_t number) {
    std::size_t at = 0;
    for (std::size_t i = 0; i <= number; ++i) at = found(report.find(entry, at)) + 1;
    return found(report.rfind(" 0 obj\n", at));
}

struct Span {
    std::size_t begin, end;
};

Span stream_of(const std::string& report, std::size_t object) {
    const std::size_t begin = found(report.find(stream_begin, object)) + stream_begin.size();
    // The length stands in the next object but one line; pictures may hold any bytes.
    const std::size_t at = found(report.find("/Length ", object)) + 8;
    const std::string number = report.substr(at, report.find(' ', at) - at);
    const std::size_t length = found(report.find("\n" + number + " 0 obj\n", begin)) + number.size() + 8;
    return {begin, begin + std::stoul(report.substr(length))};
}

std::string with_stream(std::string report, std::size_t object, std::string_view bytes) {
    const Span stream = stream_of(report, object);
    const std::size_t at = found(report.find("/Length ", object)) + 8;
    const std::string number = report.substr(at, report.find(' ', at) - at);
    const std::size_t length = found(report.find("\n" + number + " 0 obj\n", stream.begin)) + number.size() + 8;
    report.replace(length, report.find('\n', length) - length, std::to_string(bytes.size()));
    return report.replace(stream.begin, stream.end - stream.begin, bytes);
}

std::size_t carried_object(const std::string& report, std::string_view name) {
    std::size_t at = found(report.find("/EmbeddedFiles <<\n/Names [ ")) + 27;
    for (std::size_t number = 0;; ++number) {
        at = found(report.find('(', at)) + 1;
        if (report.substr(at, report.find(')', at) - at) == name)
            return object_with(report, "/Type /EmbeddedFile\n", number);
    }
}

std::string packed(std::string_view text) {
    std::string bytes(compressBound(text.size()), '\0');
    uLongf size = bytes.size();
    if (compress(reinterpret_cast<Bytef*>(bytes.data()), &size, reinterpret_cast<const Bytef*>(text.data()),
                 text.size()) != Z_OK)
        throw std::logic_error("cannot pack");
    bytes.resize(size);
    return bytes;
}

}  // namespace

std::string with_carried(std::string report, std::string_view name, std::string_view text) {
    const std::size_t object = carried_object(report, name);
    const std::size_t size = found(report.find("/Size ", object)) + 6;
    report.replace(size, report.find('\n', size) - size, std::to_string(text.size()));
    return resealed(with_stream(std::move(report), object, packed(text)));
}

std::string carried_in(const std::string& report, std::string_view name) {
    const verify::Verdict verdict = verify::verify(report, {});
    for (const verify::CarriedFile& file : verdict.files)
        if (file.name == name) return std::string(as_text(file.bytes));
    throw std::logic_error("the report does not carry that");
}

std::string with_picture(std::string report, std::size_t number, std::string_view bytes) {
    return resealed(with_stream(report, object_with(report, "/Subtype /Image\n", number), bytes));
}

std::string picture_in(const std::string& report, std::size_t number) {
    const Span stream = stream_of(report, object_with(report, "/Subtype /Image\n", number));
    return report.substr(stream.begin, stream.end - stream.begin);
}

// An RSA signature is the same each time, so sealing again gives the seal with another unsigned part.
std::string without_timestamp(const std::string& report) { return resealed(report); }

std::string with_timestamp(const std::string& report, const crypto::Stamp& stamp) {
    std::string fresh = report;
    SignatureSlot slot;
    slot.byte_range = found(fresh.find("/ByteRange [")) + 11;
    slot.contents = found(fresh.find("/Contents <")) + 10;
    slot.hex_digits = found(fresh.find('>', slot.contents)) - slot.contents - 1;
    fresh.replace(slot.byte_range, 36, "[0 0000000000 0000000000 0000000000]");
    fresh.replace(slot.contents + 1, slot.hex_digits, std::string(slot.hex_digits, '0'));
    return seal::seal(std::move(fresh), slot, ann(), stamp);
}

}  // namespace rigdeed::sample
