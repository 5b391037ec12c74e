#include "sheet/contact_sheet.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "layout/paginate.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/render.hpp"
#include "pipeline.hpp"

namespace rigdeed {

ContactSheet contact_sheet(const Pairing& of, const trade::Trade& trade, PaperSize paper, std::int64_t made_at,
                           const evidence::Gathering& how) {
    constexpr int side = 224;  // pixels along the longer side, for frames of an inch
    Problems problems = problems_of(of.text, of.survey.file, trade);
    if (!problems.empty()) return {{}, 0, std::move(problems)};
    const auto metrics = pdf::font_metrics();
    const auto printable = [&](const std::string& name) {
        std::string plain;
        for (const char32_t c : decode_utf8(name).value_or(std::u32string(U"?"))) {
            const std::string letter = encode_utf8(std::u32string(1, c));
            plain += c < U' ' || needs_shaping(c) || !metrics->missing(letter).empty() ? "?" : letter;
        }
        return plain;
    };
    const evidence::Evidence pictures = evidence::small_pictures(of.survey, of.looked, side, how);
    const document::Document composed =
        sheet::compose_contact_sheet({of.survey, trade, of.paired, pictures, printable});
    layout::Pages pages = layout::paginate(composed, *metrics, layout::sheet_of(paper));
    pdf::DocumentFacts facts;
    facts.title = trade.wording("contact.document", {{"number", of.survey.number}});
    if (of.survey.surveyor.name != "?") facts.author = of.survey.surveyor.name;
    facts.subject = trade.wording("contact.subject");
    facts.language = trade.wording("form.language");
    facts.issued = made_at;
    facts.identity = crypto::sha256(of.text);
    const std::size_t count = pages.pages.size();
    return {pdf::render_pdf(std::move(pages), std::move(facts)).bytes, count, {}};
}

}  // namespace rigdeed
