#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

Facts yacht_facts(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const survey::Yacht& yacht = material.survey.yacht;
    const auto or_unknown = [&](const std::string& text) { return text.empty() ? words("rig.unknown") : text; };
    Facts facts;
    facts.facts = {{words("rig.name"), {yacht.name}},
                   {words("rig.hin"), {or_unknown(yacht.hin)}},
                   {words("rig.plan"), {rig_plan(material)}},
                   {words("rig.mast"), {material.trade.material_name(yacht.mast)}},
                   {words("rig.built"), {yacht.built ? std::to_string(*yacht.built) : words("rig.unknown")}},
                   {words("rig.loa"), {words.numbers(yacht.loa.text)}},
                   {words("rig.beam"), {yacht.beam ? words.numbers(yacht.beam->text) : words("rig.unknown")}},
                   {words("rig.displacement"),
                    {yacht.displacement ? words.numbers(yacht.displacement->text) : words("rig.unknown")}}};
    return facts;
}

}  // namespace

void boat_and_rig(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Heading{Level::section, words("rig.yacht"), "", "", ""});
    add(blocks, yacht_facts(material));
    add(blocks, Paragraph{words("rig.drawn"), Tone::quiet});
    history(material, blocks);
    PictureRow views;
    views.columns = measures::views_a_row;
    for (const survey::OtherPhoto& other : material.survey.photos.others) {
        Picture photo = photo_block(material, other.name, words("photo.view"), other.shows);
        photo.second = other.shows;
        views.photos.push_back(std::move(photo));
    }
    if (!views.photos.empty())
        add(blocks,
            Together{{Block{Heading{Level::section, words("rig.views"), "", "", ""}}, Block{std::move(views)}}});
}

}  // namespace rigdeed::report
