#include "report/compose.hpp"

#include "report/rig_drawing.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {

document::Document compose_report(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    document::Document report;
    report.head.yacht = material.survey.yacht.name;
    report.foot.paper = words("footer.survey", {{"number", material.survey.number}});
    report.foot.data = words("footer.data", {{"digest", material.data_digest.grouped(4)}});
    report.foot.page_of_pages = words("footer.page", {{"page", "{page}"}, {"pages", "{pages}"}});
    if (!material.completeness.complete()) report.head.stamps.push_back(words("stamp.incomplete"));
    if (!material.signer) {
        report.head.stamps.push_back(words("stamp.preview"));
        report.watermark = words("stamp.preview");
    }
    report.mast = margin_mast(material);
    cover(material, report.cover);
    for (auto* section : {contents, gaps, works_list, scope_and_limits, boat_and_rig, findings, sound_fittings,
                          calculations, evidence_remarks, photo_register, how_to_check, glossary})
        section(material, report.blocks);
    return report;
}

}  // namespace rigdeed::report
