#include "drawing/beads.hpp"
#include "drawing/code.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

/// Number, data digest and fingerprint for a machine: three lines, no address.
drawing::Drawing code_of(const Material& material, const SignerFacts& signer) {
    constexpr Points side = 80_pt;
    const trade::Wording& words = material.trade.wording;
    const std::string text =
        "rigdeed " + material.survey.number + "\ndata " + material.data_digest.hex() + "\nsigner " + signer.fingerprint;
    return drawing::code_drawing(text, side, words("check.code.alternative"));
}

std::string when_sealed(const SignerFacts& signer, const trade::Wording& words) {
    return words(signer.date_typed ? "check.signer.typed" : "check.signer.clock",
                 {{"date", words.date(signer.sealed.date)}, {"time", signer.sealed.time.hh_mm()}});
}

}  // namespace

void how_to_check(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Paragraph{words(material.signer ? "check.intro" : "check.intro-unsigned"), Tone::body});
    if (material.signer) {
        add(blocks, Step{"1", words("check.reader.title"), words("check.reader.text"), {}});
        add(blocks, Step{"2", words("check.fingerprint.title"), words("check.fingerprint.text"), {}});
        add(blocks, Step{"3", words("check.page.title"), words("check.page.text"), {}});
        add(blocks,
            Step{"4",
                 words("check.program.title"),
                 words("check.program.text"),
                 {words("check.program.output", {{"fingerprint", material.signer->fingerprint.substr(0, 32)}})}});
        add(blocks, Step{"5", words("check.data.title"), words("check.data.text"), {}});
    }
    Together seal{{Block{Heading{Level::section, words("check.not.title"), "", "", ""}},
                   Block{Paragraph{words("check.not.text"), Tone::small}}}};
    if (material.signer) {
        const std::string firm =
            material.signer->organisation.empty() ? std::string("–") : material.signer->organisation;
        add(seal.blocks, SealPlate{drawing::rose(material.data_digest.hex(), 32_pt, words("cover.rose")),
                                   material.signer->name,
                                   {{words("check.signer.firm"), firm},
                                    {words("check.signer.sealed"), when_sealed(*material.signer, words)},
                                    {words("check.signer.until"), material.signer->valid_until},
                                    {words("check.signer.rule"), words("check.signer.rule.text")}}});
        add(seal.blocks,
            Fingerprint{words("check.print.title"), words("check.print.remark"), material.signer->fingerprint,
                        code_of(material, *material.signer), words("check.code.caption")});
    }
    if (!material.replaced) add(seal.blocks, Fingerprint{words("check.digest.title"), "", material.data_digest.hex()});
    add(blocks, std::move(seal));
    if (const auto& old = material.replaced)
        add(blocks, Together{{Block{Paragraph{
                                  words("check.replaced.text",
                                        {{"number", old->number}, {"date", old->issued}, {"because", old->because}}),
                                  Tone::body}},
                              Block{Fingerprint{words("check.replaced.title"), "", old->sha256}}}});
    if (material.replaced) add(blocks, Fingerprint{words("check.digest.title"), "", material.data_digest.hex()});
}

}  // namespace rigdeed::report
