#include <algorithm>
#include <array>

#include "base/error.hpp"
#include "base/file.hpp"
#include "base/resources.hpp"
#include "base/text.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

constexpr std::uint64_t largest_template = 4 * 1024 * 1024;

struct TemplateFile {
    std::string name;  // "kinds/deck.xml"
    std::string text;
    std::string origin;  // as messages call it
};

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
    Reader{"tables/contradictions.xml", "contradictions", read_contradictions},
    Reader{"tables/cautions.xml", "cautions", read_cautions},
    Reader{"tables/measures.xml", "measures", read_measures},
    Reader{"tables/strand.xml", "strand", read_strand},
    Reader{"tables/galvanic.xml", "galvanic", read_galvanic},
    Reader{"tables/splitpins.xml", "split-pins", read_split_pins},
    Reader{"tables/bands.xml", "bands", read_bands},
    Reader{"tables/load-shares.xml", "load-shares", read_load_shares},
    Reader{"tables/calculations.xml", "calculations", read_calculations},
    Reader{"look/letterhead.xml", "letterhead", read_letterhead},
    Reader{"wording/en.xml", "wording", read_wording},
};

const Reader* reader_for(std::string_view name) {
    for (const Reader& reader : readers)
        if (name.starts_with(reader.prefix) && name.ends_with(".xml")) return &reader;
    return nullptr;
}

std::vector<TemplateFile> built_in() {
    std::vector<TemplateFile> files;
    for (const Resource& one : resources())
        if (reader_for(one.name) != nullptr)
            files.push_back({std::string(one.name), std::string(one.bytes), "built-in " + std::string(one.name)});
    return files;
}

void replace_or_add(std::vector<TemplateFile>& files, TemplateFile file) {
    const auto same =
        std::find_if(files.begin(), files.end(), [&](const TemplateFile& one) { return one.name == file.name; });
    if (same != files.end()) *same = std::move(file);
    else files.push_back(std::move(file));
}

void read_into(Trade& trade, const TemplateFile& file) {
    const Reader& reader = *reader_for(file.name);
    auto [root, problems] = xml::read(file.text, file.origin);
    if (root && root->name != reader.root)
        problems.push_back({{file.origin, root->line},
                            "the root element is <" + root->name + ">",
                            "write <" + std::string(reader.root) + ">"});
    if (root && problems.empty()) reader.read(*root, file.origin, trade, problems);
    if (!problems.empty()) throw Error(problems.front().what, problems.front().at.text(), problems.front().hint);
}

template <class Rows>
auto find_by_id(const Rows& rows, std::string_view id) {
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.id == id; });
    return found == rows.end() ? nullptr : &*found;
}

}  // namespace

Trade load_trade(const std::optional<std::filesystem::path>& folder) {
    std::vector<TemplateFile> files = built_in();
    Trade trade;
    if (folder) {
        const Folder own(*folder);
        for (const std::string& name : own.files()) {
            if (reader_for(name) == nullptr) continue;
            const Bytes bytes = read_file(*folder / name, largest_template);
            replace_or_add(files, {name, std::string(as_text(bytes)), (*folder / name).string()});
            trade.replaced.push_back(name);
            trade.own_templates += name + '\0' + std::string(as_text(bytes)) + '\0';
        }
    }
    for (const TemplateFile& file : files) read_into(trade, file);
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

std::vector<Demand> Trade::demands_of(const survey::Stay& stay) const {
    const Make* make_of = make(stay.make);
    std::vector<Demand> demands = make_of != nullptr ? make_of->demands : std::vector<Demand>();
    const Role* role_of = role(stay.role);
    if (role_of == nullptr) return demands;
    for (const Instead& instead : role_of->instead)
        for (Demand& demand : demands)
            if (demand.name == instead.of) {
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

std::string Trade::material_name(std::string_view id) const {
    const NamedId* found = find_by_id(materials, id);
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
