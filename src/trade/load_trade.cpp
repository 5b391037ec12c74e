#include <algorithm>
#include <array>

#include "base/error.hpp"
#include "base/resources.hpp"
#include "base/text.hpp"
#include "trade/inherit.hpp"
#include "trade/load_wording.hpp"
#include "trade/phrases.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

using TemplateFile = OwnTemplate;

struct Reader {
    std::string_view prefix;
    std::string_view root;
    void (*read)(const xml::Element&, const std::string&, Trade&, Problems&);
};

constexpr std::array readers{
    Reader{"kinds/", "kinds", read_kinds},
    Reader{"plans/makes.xml", "makes", read_makes},
    Reader{"plans/roles.xml", "roles", read_roles},
    Reader{"plans/", "plan", read_plan},  // every other file there is a plan
    Reader{"tables/materials.xml", "materials", read_materials},
    Reader{"tables/intervals.xml", "intervals", read_intervals},
    Reader{"tables/rules.xml", "rules", read_rules},
    Reader{"tables/limits.xml", "limits", read_limits},
    Reader{"tables/contradictions.xml", "contradictions", read_contradictions},
    Reader{"tables/cautions.xml", "cautions", read_cautions},
    Reader{"tables/measures.xml", "measures", read_measures},
    Reader{"tables/strand.xml", "strand", read_strand},
    Reader{"tables/galvanic.xml", "galvanic", read_galvanic},
    Reader{"tables/splitpins.xml", "split-pins", read_split_pins},
    Reader{"tables/bands.xml", "bands", read_bands},
    Reader{"tables/load-shares.xml", "load-shares", read_load_shares},
    Reader{"tables/calculations.xml", "calculations", read_calculations},
    Reader{"tables/plausible.xml", "plausible", read_plausible},
    Reader{"tables/aliases.xml", "aliases", read_aliases},
    Reader{"look/letterhead.xml", "letterhead", read_letterhead},
    Reader{"wording/", "wording", read_wording},
};

const Reader* reader_for(std::string_view name, std::string_view language) {
    if (name.starts_with("wording/") && name != "wording/" + std::string(language) + ".xml") return nullptr;
    for (const Reader& reader : readers)
        if (name.starts_with(reader.prefix) && name.ends_with(".xml")) return &reader;
    return nullptr;
}

bool is_phrases(std::string_view name, std::string_view language) {
    return name.starts_with("phrases/" + std::string(language) + "/") && name.ends_with(".xml");
}

constexpr std::string_view built_in_origin = "built-in ";

std::vector<TemplateFile> built_in() {
    std::vector<TemplateFile> files;
    for (const Resource& one : resources())
        files.push_back(
            {std::string(one.name), std::string(one.bytes), std::string(built_in_origin) + std::string(one.name)});
    return files;
}

void replace_or_add(std::vector<TemplateFile>& files, TemplateFile file) {
    const auto same =
        std::find_if(files.begin(), files.end(), [&](const TemplateFile& one) { return one.name == file.name; });
    if (same != files.end()) *same = std::move(file);
    else files.push_back(std::move(file));
}

void throw_first(const Problems& problems) {
    if (!problems.empty()) throw Error(problems.front().what, problems.front().at.text(), problems.front().hint);
}

xml::Element read_root(const TemplateFile& file, std::string_view name) {
    auto [root, problems] = xml::read(file.text, file.origin);
    if (root && root->name != name)
        problems.push_back({{file.origin, root->line},
                            "the root element is <" + root->name + ">",
                            "write <" + std::string(name) + ">"});
    throw_first(problems);
    return std::move(*root);
}

void read_into(Trade& trade, const TemplateFile& file, const Reader& reader, const Phrases& phrases) {
    xml::Element root = read_root(file, reader.root);
    if (!file.name.starts_with("wording/"))
        phrases.translate(root, file.origin.starts_with(built_in_origin) ? file.origin : "");
    if (!file.origin.starts_with(built_in_origin)) inherit(root);
    Problems problems;
    reader.read(root, file.origin, trade, problems);
    throw_first(problems);
}

Phrases read_phrases(const std::vector<TemplateFile>& files, std::string_view language) {
    Phrases phrases;
    Problems problems;
    for (const TemplateFile& file : files)
        if (is_phrases(file.name, language)) phrases.read(read_root(file, "phrases"), file.origin, problems);
    throw_first(problems);
    return phrases;
}

// What a report says of own rules, of its gaps and of what it proves are the program's words, whoever's the others are.
constexpr std::array fixed_words{"own-rules.", "stamp.", "check."};

void keep_fixed_words(Wording& wording) {
    const Wording ours = load_wording(wording.language());
    for (const auto& [key, words] : ours.all())
        for (const std::string_view fixed : fixed_words)
            if (key.starts_with(fixed)) wording.set(key, words);
}

template <class Rows>
auto find_by_id(const Rows& rows, std::string_view id) {
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.id == id; });
    return found == rows.end() ? nullptr : &*found;
}

}  // namespace

Wording load_wording(std::string_view language) {
    const std::string name = "wording/" + std::string(language) + ".xml";
    Trade ours;
    ours.wording = Wording(std::string(language));
    read_into(ours, {name, std::string(resource(name)), std::string(built_in_origin) + name},
              *reader_for(name, language), {});
    return std::move(ours.wording);
}

Trade load_trade(const OwnTemplates& own, std::string_view language) {
    if (std::find(languages.begin(), languages.end(), language) == languages.end())
        throw Error("no language " + in_quotes(language), {},
                    "write one of: " + join({languages.begin(), languages.end()}, ", "));
    std::vector<TemplateFile> files = built_in();
    Trade trade;
    trade.wording = Wording(std::string(language));
    trade.own.carried = own.carried;
    for (const OwnTemplate& file : own.files) {
        if (reader_for(file.name, language) == nullptr && !is_phrases(file.name, language)) continue;
        replace_or_add(files, file);
        trade.own.files.push_back(file);
    }
    const Phrases phrases = read_phrases(files, language);
    for (const TemplateFile& file : files)
        if (const Reader* reader = reader_for(file.name, language)) read_into(trade, file, *reader, phrases);
    if (own.have(OwnTemplate::Matter::words)) keep_fixed_words(trade.wording);
    return trade;
}

const Kind* Trade::kind(std::string_view id) const { return find_by_id(kinds, id); }
const Make* Trade::make(std::string_view id) const { return find_by_id(makes, id); }

const Plan* Trade::plan(std::string_view id) const { return find_by_id(plans, id); }

const SignRule* Trade::sign(const Kind& kind, std::string_view code) const {
    for (const auto* signs : {&kind.signs, &any_signs})
        for (const SignRule& one : *signs)
            if (one.code == code) return &one;
    return nullptr;
}

const Role* Trade::role(std::string_view id) const { return find_by_id(roles, id); }

bool Trade::are_pair(const survey::Stay& port, const survey::Stay& starboard) const {
    return port.side == survey::Side::port && starboard.side == survey::Side::starboard &&
           port.role == starboard.role && port.mast == starboard.mast && role(port.role) != nullptr;
}

std::vector<Demand> Trade::demands_of(const survey::Stay& stay) const {
    const Make* make_of = make(stay.make);
    std::vector<Demand> demands = make_of != nullptr ? make_of->demands : std::vector<Demand>();
    const Role* role_of = role(stay.role);
    if (role_of == nullptr) return demands;
    for (const Instead& instead : role_of->instead)
        for (Demand& demand : demands)
            if (demand.id == instead.of) {
                demand.name = instead.name;
                demand.kinds = instead.kinds;
            }
    std::erase_if(demands, [](const Demand& demand) { return demand.kinds.empty(); });
    return demands;
}

std::string Trade::role_name(std::string_view id) const {
    const Role* found = find_by_id(roles, id);
    return found != nullptr ? found->name : std::string(id);
}

const Material* Trade::material(std::string_view id) const { return find_by_id(materials, id); }

bool Trade::is_a(const survey::Fitting& fitting, KindIs what) const {
    const Kind* found = kind(fitting.kind);
    return found != nullptr && found->is_a(what);
}

bool Kind::is_a(KindIs what) const { return std::find(is.begin(), is.end(), what) != is.end(); }

std::string Trade::material_name(std::string_view id) const {
    const Material* found = material(id);
    return found != nullptr ? found->name : std::string(id);
}

const CrossRule& Trade::rule(std::string_view id) const {
    const CrossRule* found = find_by_id(rules, id);
    if (found == nullptr) throw Error("no rule " + in_quotes(id), "tables/rules.xml", {}, ExitCode::bug);
    return *found;
}

const Interval& Trade::interval(std::string_view id) const {
    const Interval* found = find_by_id(intervals, id);
    if (found == nullptr) throw Error("no interval " + in_quotes(id), "tables/intervals.xml", {}, ExitCode::bug);
    return *found;
}

}  // namespace rigdeed::trade
