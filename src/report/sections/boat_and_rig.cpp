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

Table stays(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    Table table;
    table.small = true;
    table.columns = {{words("rig.head.stay"), 0.21, Align::left, true},
                     {words("rig.head.make"), 0.31, Align::left},
                     {words("rig.head.fitted"), 0.24, Align::left},
                     {words("rig.head.length"), 0.1, Align::left},
                     {words("rig.head.load"), 0.14, Align::left}};
    RowGroup group;
    for (const survey::Stay& stay : material.survey.stays) {
        Row row;
        row.cells.resize(5);
        row.cells[0].bold = capitalised(trade::stay_name(stay, material.trade));
        row.cells[1].lines = {stay_words(stay, material.trade)};
        if (stay.fitted)
            row.cells[2].lines = {words.date(*stay.fitted) + ", " +
                                  words("rig.by." + survey::name_of(*stay.age_source))};
        else row.cells[2].lines = {words("rig.age-unknown")};
        row.cells[3].lines = {stay.length ? words.numbers(stay.length->text) : words("rig.unknown")};
        row.cells[4].lines = {stay.breaking_load
                                  ? words("rig.load-certificate", {{"load", words.numbers(stay.breaking_load->text)}})
                                  : words("rig.load-none")};
        group.rows.push_back(std::move(row));
    }
    table.groups = {std::move(group)};
    return table;
}

}  // namespace

void boat_and_rig(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Heading{Level::section, words("rig.yacht"), "", "", ""});
    add(blocks, yacht_facts(material));
    history(material, blocks);
    add(blocks, Heading{Level::section, words("rig.stays"), "", "", ""});
    add(blocks, stays(material));
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
