#pragma once

#include <string>

#include "base/signature_slot.hpp"
#include "crypto/cms.hpp"
#include "crypto/signer.hpp"

namespace rigdeed::seal {

/// Fills the slot of a rendered PDF: the byte range first, then the signature over everything but its own hex digits
/// (ISO 32000-1, 12.8.1). With `stamp`, a timestamp of it. In place; nothing else changes. Throws Error if
/// the signature with its certificates and timestamp is larger than the slot; with code bug if the slot is not what it
/// says.
[[nodiscard]] std::string seal(std::string&& rendered, const SignatureSlot& slot, const crypto::Signer& signer,
                               const crypto::Stamp& stamp = {});

}  // namespace rigdeed::seal
