#include "report/compose.hpp"

#include <algorithm>
#include <iterator>

#include "report/rig_drawing.hpp"
#include "report/sections/sections.hpp"
#include "survey/own_words.hpp"

namespace rigdeed::report {
namespace {

struct Chapter {
    const char* title;   ///< key of the wording
    const char* anchor;  ///< empty: not in the contents
    bool numbered;
    bool goes_on;  ///< under the chapter before, where that leaves room
    bool mast;     ///< in the margin
    void (*write)(const Material&, Blocks&);
};

constexpr Chapter chapters[] = {{"chapter.insurer", "insurer", false, false, false, insurer},
                                {"chapter.contents", "", false, false, true, contents},
                                {"chapter.gaps", "gaps", false, false, false, gaps},
                                {"chapter.works", "works", true, true, true, works_list},
                                {"chapter.changes", "changes", true, true, false, changes},
                                {"chapter.scope", "scope", true, true, false, scope_and_limits},
                                {"chapter.rig", "rig", true, true, false, boat_and_rig},
                                {"chapter.findings", "findings", true, false, true, findings},
                                {"chapter.sound", "sound", true, false, false, sound_fittings},
                                {"chapter.calculations", "calculations", true, true, false, calculations},
                                {"chapter.register", "register", true, true, false, remarks_and_register},
                                {"chapter.glossary", "glossary", true, true, false, glossary},
                                {"chapter.check", "check", true, false, false, how_to_check}};

/// Each on a new page, or well above the foot of one; one that has nothing to say is left out.
void add_chapters(const Material& material, Blocks& blocks) {
    int number = 0;
    for (const Chapter& chapter : chapters) {
        Blocks content;
        chapter.write(material, content);
        if (content.empty()) continue;
        // beside the contents only if the works list begins beneath them
        add(blocks, MastMargin{chapter.mast && (chapter.numbered || material.completeness.complete())});
        add(blocks, PageBreak{chapter.goes_on ? 170_pt : 0_pt});
        add(blocks, Heading{Level::title, material.trade.wording(chapter.title), "", chapter.anchor,
                            chapter.numbered ? std::to_string(++number) : std::string()});
        std::move(content.begin(), content.end(), std::back_inserter(blocks));
    }
}

}  // namespace

document::Document compose_report(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    document::Document report;
    report.head.yacht = material.survey.yacht.name;
    report.foot.paper = words("footer.survey", {{"number", material.survey.number}});
    if (material.own_rules) report.foot.paper += " · " + words("own-rules.footer");
    report.foot.data = words("footer.data", {{"digest", material.data_digest.grouped(4)}});
    report.foot.page_of_pages = words("footer.page", {{"page", "{page}"}, {"pages", "{pages}"}});
    if (!material.completeness.complete()) report.head.stamps.push_back(words("stamp.incomplete"));
    if (!material.signer) {
        report.head.stamps.push_back(words("stamp.preview"));
        report.watermark = words("stamp.preview");
    }
    if (survey::written_in_another(material.survey, words.language())) report.own_words = material.survey.written_in;
    report.mast = margin_mast(material);
    cover(material, report.cover);
    add_chapters(material, report.blocks);
    return report;
}

}  // namespace rigdeed::report
