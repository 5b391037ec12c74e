#pragma once

#include <functional>

#include "document/block.hpp"
#include "evidence/evidence.hpp"
#include "pairing/survey_pairing.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// The contact sheet: what `pair` found, to be looked through.
namespace rigdeed::sheet {

struct ContactSheet {
    const survey::Survey& survey;
    const trade::Trade& trade;
    const pairing::Paired& paired;
    const evidence::Evidence& pictures;  ///< a small copy of each photo; one without stands as an empty frame
    std::function<std::string(const std::string&)> printable;  ///< names of files, as the fonts can print them
};

/// Each fitting and pass with its photos, from far and close, by file name, sure or in doubt and why; then the photos
/// of nothing in turn, and those of codes. A photo of several fittings stands at each.
[[nodiscard]] document::Document compose_contact_sheet(const ContactSheet& of);

}  // namespace rigdeed::sheet
