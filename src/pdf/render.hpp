#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/bytes.hpp"
#include "base/signature_slot.hpp"
#include "layout/page.hpp"

namespace rigdeed::pdf {

/// A file carried inside the PDF (PDF 2.0 / PDF/A-3 associated file).
struct EmbeddedFile {
    std::string name;        ///< ASCII, as it is unpacked
    std::string media_type;  ///< "text/xml"
    std::string description;
    std::string relationship;  ///< "Source" or "Data"
    Bytes bytes;
};

/// The visible facts of a signature dictionary.
struct SignatureFacts {
    std::string signer;    ///< /Name
    std::string reason;    ///< /Reason
    std::string location;  ///< /Location; may be empty
};

/// What the document says of itself.
struct DocumentFacts {
    std::string title;
    std::string author;  ///< may be empty
    std::string subject;
    std::string language = "en-GB";  ///< BCP 47
    std::int64_t issued = 0;         ///< seconds since 1970-01-01 UTC; dates of Info, XMP and signature
    Digest identity;                 ///< of the data; its first half becomes the trailer's /ID
    std::vector<EmbeddedFile> files;
    std::optional<SignatureFacts> signature;  ///< none: an unsigned document without a signature field
};

struct RenderedPdf {
    std::string bytes;
    std::optional<SignatureSlot> slot;
};

/// Pages to PDF 1.7 bytes in one revision, with everything but the signature value in place.
/// Deterministic: the same input gives the same bytes. Throws Error (code bug) if libharu refuses something.
[[nodiscard]] RenderedPdf render_pdf(layout::Pages pages, DocumentFacts facts);

}  // namespace rigdeed::pdf
