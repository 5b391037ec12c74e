#pragma once

#include <optional>
#include <string>

#include "document/block.hpp"
#include "evidence/evidence.hpp"
#include "works/conclude.hpp"

namespace rigdeed::works {

/// What a follow-up is made from. Everything lives longer than the call.
struct Material {
    const WorksDone& works;
    const Answered& answered;
    const Conclusion& conclusion;
    const evidence::Evidence& evidence;
    const trade::Trade& trade;  ///< in the language of the paper
    std::string report_sha256;  ///< of the sealed report, 64 hex digits
    std::string report_signer;
    std::string data_digest;  ///< 64 hex digits
    Date issued_on;
    std::string signer;       ///< whom the certificate names; empty: an unsigned preview
    std::string fingerprint;  ///< of the certificate, 64 hex digits
};

/// A paper of its own: what was open, what is done, what remains, its photos, who vouches for what.
[[nodiscard]] document::Document compose_follow_up(const Material& material);

/// How large its photos are printed: pixels along their longer side.
[[nodiscard]] evidence::ForPrint for_print(const WorksDone& works);

/// How many photos stand in a row: more where much was done.
[[nodiscard]] std::size_t photos_in_a_row(const WorksDone& works);

}  // namespace rigdeed::works
