#include <algorithm>

#include "base/text.hpp"
#include "drawing/schematic.hpp"
#include "drawing/strand_section.hpp"
#include "report/rig_drawing.hpp"
#include "report/scale_bar.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;
using survey::Seen;
using survey::Way;

class FindingWriter {
 public:
    FindingWriter(const Material& material, const FittingVerdict& one)
        : material_(material), words_(material.trade.wording), one_(one) {}

    std::vector<Block> write(bool tight) {
        tight_ = tight;
        blocks_.clear();
        add(blocks_, head());
        add(blocks_, facts());
        photos();
        if (!one_.absent && !one_.fitting->seen.empty() && !nothing_seen()) passes();
        add(blocks_, meaning());
        add(blocks_, Paragraph{source(), Tone::quiet});
        return std::move(blocks_);
    }

 private:
    /// Of the circle that enlarges a mark.
    Points radius() const { return tight_ ? 44_pt : measures::detail_radius; }

    FindingHead head() const {
        return {VerdictMark{one_.verdict, one_.number},
                capitalised(one_.name),
                verdict_word(one_.verdict, words_),
                finding_sentence(material_, one_),
                one_.bars_climbing ? words_("finding.do-not-climb") : std::string(),
                finding_anchor(one_.number),
                one_.fitting->height.quantity.value / 1000};
    }

    Facts facts() const {
        Facts facts;
        facts.facts = {{words_("finding.kind"), {one_.kind->name}},
                       {words_("finding.stay"), {one_.stay != nullptr ? short_stay() : words_("finding.no-stay")}},
                       {words_("finding.height"), {words_.numbers(one_.fitting->height.text)}},
                       {words_("finding.id"), {one_.fitting->id}}};
        if (one_.stay != nullptr && one_.stay->fitted)
            facts.facts[1].lines.push_back(words_("finding.fitted") + " " + words_.date(*one_.stay->fitted) + ", " +
                                           words_("rig.by." + survey::name_of(*one_.stay->age_source)));
        if (nothing_seen()) add_passes(facts);
        for (const survey::Measured& measured : one_.fitting->measured)
            facts.facts[2].lines.push_back(measured_words(measured, material_.trade));
        return facts;
    }

    /// Looked at, and no sign of its own: one line says so.
    bool nothing_seen() const {
        return one_.signs.empty() && one_.unseen_because.empty() && !one_.fitting->seen.empty() && !one_.absent;
    }

    void add_passes(Facts& facts) const {
        std::vector<std::string> times;
        for (const Seen& seen : one_.fitting->seen)
            times.push_back(words_(seen.pass == Way::up ? "finding.up" : "finding.down") + " " + seen.at.hh_mm());
        facts.facts.push_back({words_("finding.passes"), {join(times, ", "), words_("finding.no-sign")}});
        facts.columns = facts.facts.size();
    }

    /// "1×19 strand, 316, 8 mm"
    std::string short_stay() const {
        const trade::Make* make = material_.trade.make(one_.stay->make);
        return (make != nullptr ? make->name : one_.stay->make) + ", " + one_.stay->alloy + ", " +
               words_.numbers(one_.stay->diameter.text);
    }

    /// The worst pass's pair in the exhibit; the other's small, in it or beneath it.
    void photos() {
        const auto pairs = pairs_worst_first();
        Exhibit exhibit;
        exhibit.radius = radius();
        exhibit.others_in_row = tight_;
        const drawing::SchematicWords words = [this](std::string_view key) { return words_(key); };
        if (shows_section()) exhibit.schematic = section();
        else if (!one_.signs.empty()) exhibit.schematic = schematic(words);
        if (!pairs.empty()) exhibit.photos = pair(*pairs.front());
        if (!pairs.empty() && exhibit.schematic) enlarge(exhibit, *pairs.front());
        exhibit.where =
            place_on_rig(material_, one_, {measures::place_width, exhibit.schematic ? radius() * 2 : 94_pt});
        exhibit.where_words.role = words_("rig.where");
        exhibit.where_words.caption = place_in_words(material_, one_);
        const bool beneath = !exhibit.schematic;
        std::vector<Picture> other = pairs.size() > 1 ? pair(*pairs.back()) : std::vector<Picture>();
        if (tight_)
            for (Picture& photo : other) photo.second.clear();  // the close one's limit stands in the register, too
        if (!beneath) exhibit.others = std::move(other);
        add(blocks_, std::move(exhibit));
        if (beneath && !other.empty()) {
            PictureRow row;
            row.columns = 4;
            row.photos = std::move(other);
            add(blocks_, std::move(row));
        }
    }

    /// A kind of the user's own may name a drawing that we have not: its room stays empty.
    drawing::Drawing schematic(const drawing::SchematicWords& words) const {
        auto drawn = drawing::schematic(one_.kind->schematic, words);
        if (!drawn) return {{measures::schematic_width, 20_pt}, {}, one_.kind->name};
        std::vector<drawing::SignPlace> places;
        for (const trade::JudgedSign& sign : one_.signs)
            places.push_back({sign.rule->at, sign.sign->where, !is_limit(*sign.rule)});
        drawing::mark_signs(*drawn, one_.verdict, one_.number, places, words);
        return std::move(drawn->drawing);
    }

    /// What stands beyond a limit was measured or calculated, not seen.
    bool is_limit(const trade::SignRule& rule) const {
        return std::any_of(material_.trade.limits.begin(), material_.trade.limits.end(),
                           [&](const trade::Limit& limit) { return limit.rule.code == rule.code; });
    }

    /// Marks of this pass but the first, which is of the worst sign and is enlarged.
    std::vector<survey::Mark> further_marks(const Seen& seen) const {
        std::vector<survey::Mark> marks;
        for (const trade::JudgedSign& sign : one_.signs)
            if (sign.seen == &seen && sign.sign->mark) marks.push_back(*sign.sign->mark);
        if (!marks.empty()) marks.erase(marks.begin());
        return marks;
    }

    /// The rings on the close photo, and what is in the first enlarged from the original pixels.
    void enlarge(Exhibit& exhibit, const Seen& seen) const {
        const evidence::Photo* photo = material_.evidence.find(seen.close);
        if (photo == nullptr || !photo->usable() || !photo->detail_of || !photo->detail.jpeg) return;
        exhibit.rings = {{photo->detail_of->x, photo->detail_of->y, photo->detail_of->radius}};
        for (const survey::Mark& mark : further_marks(seen)) exhibit.rings.push_back({mark.x, mark.y, mark.radius});
        Picture detail;
        detail.jpeg = photo->detail.jpeg;
        detail.width = photo->detail.width;
        detail.height = photo->detail.height;
        detail.role = words_("photo.enlarged");
        detail.caption = words_("photo.enlarged-from", {{"name", seen.close}});
        detail.alternative =
            words_("photo.alternative", {{"name", seen.close}, {"role", detail.role}, {"fitting", one_.name}});
        if (const auto scale = photo->scale()) {
            detail.second = words_("photo.finer", {{"width", finest(*scale)}});
            const Millimetres across = *scale * (photo->width * photo->detail_of->radius * 2);
            if (const auto bar = scale_bar(across, material_.units)) {
                exhibit.bar = bar->length / across;
                exhibit.bar_words = words_.numbers(bar->words);
            }
        }
        exhibit.detail = std::move(detail);
    }

    /// The pass that saw the worst comes first.
    std::vector<const Seen*> pairs_worst_first() const {
        std::vector<const Seen*> pairs;
        for (const Seen& seen : one_.fitting->seen)
            if (!seen.far.empty() || !seen.close.empty()) pairs.push_back(&seen);
        std::stable_sort(pairs.begin(), pairs.end(), [&](const Seen* a, const Seen* b) {
            return trade::worst_in(one_.signs, a->pass) > trade::worst_in(one_.signs, b->pass);
        });
        return pairs;
    }

    std::vector<Picture> pair(const Seen& seen) const {
        std::vector<Picture> photos;
        for (const auto& [name, role] : {std::pair(seen.far, "photo.far"), std::pair(seen.close, "photo.close")}) {
            if (name.empty()) continue;
            Picture photo = photo_block(material_, name, words_(role), one_.name);
            if (name == seen.close) photo.second = limit_of(name);
            photos.push_back(std::move(photo));
        }
        return photos;
    }

    /// What a line must measure to show at this scale, in the report's units.
    std::string finest(Millimetres scale) const {
        const double line = scale.value * material_.trade.tables.constant("pixels-a-line").value;
        return words_.numbers(printed(line, Unit::millimetre, 2, material_.units));
    }

    /// What a crack would have to measure to show on this photo.
    std::string limit_of(const std::string& name) const {
        const evidence::Photo* photo = material_.evidence.find(name);
        if (photo == nullptr || !photo->usable()) return {};
        const auto scale = photo->scale();
        return scale ? words_("photo.finest", {{"width", finest(*scale)}}) : words_("photo.no-scale");
    }

    /// Only where wires were seen to be broken or dull: a section of an unseen strand would say too much.
    bool shows_section() const {
        const drawing::WireStates states = wire_states();
        return one_.stay != nullptr && one_.stay->make == "1x19" && states.broken + states.dull > 0;
    }

    drawing::WireStates wire_states() const {
        drawing::WireStates states;
        for (const trade::JudgedSign& sign : one_.signs) {
            const auto count = static_cast<std::size_t>(sign.sign->count.value_or(1));
            if (sign.rule->is == trade::SignIs::broken_wire) states.broken = std::max(states.broken, count);
            if (sign.rule->is == trade::SignIs::dull_wire) states.dull = std::max(states.dull, count);
        }
        return states;
    }

    drawing::Drawing section() const {
        const drawing::WireStates states = wire_states();
        const std::size_t marked = std::min<std::size_t>(states.broken + states.dull, 12);
        drawing::StrandWords words;
        words.broken = words_.count("strand.broken", states.broken);
        words.dull = words_.count("strand.dull", states.dull);
        words.whole = words_.count("strand.whole", 12 - marked);
        words.hidden = words_("strand.hidden");
        words.unplaced = words_("strand.unplaced");
        words.alternative =
            join({words_("finding.section"), words.broken, words.dull, words.whole, words.hidden}, "; ");
        return drawing::strand_section(states, words);
    }

    void passes() {
        std::string remark;
        if (one_.passes_differ) remark = words_("finding.passes.differ");
        if (one_.seen_once) remark = words_("finding.passes.once");
        Table table;
        table.columns = {
            {"", 0.1, Align::left}, {"", 0.09, Align::left}, {"", 0.51, Align::left}, {"", 0.3, Align::right}};
        RowGroup group{words_("finding.passes"), remark, {}};
        for (const Way pass : {Way::up, Way::down}) group.rows.push_back(pass_row(pass));
        table.groups = {std::move(group)};
        add(blocks_, std::move(table));
    }

    Row pass_row(Way pass) const {
        Row row;
        row.cells.resize(4);
        row.cells[0].bold = words_(pass == Way::up ? "finding.up" : "finding.down");
        const Seen* seen = one_.fitting->in(pass);
        row.cells[1].lines = {seen != nullptr ? seen->at.hh_mm() : std::string("–")};
        row.cells[2].lines =
            seen != nullptr ? signs_in_words(*seen) : std::vector<std::string>{words_("finding.not-looked")};
        if (seen != nullptr) row.cells[3].lines = {photos_in_words(*seen)};
        return row;
    }

    std::vector<std::string> signs_in_words(const Seen& seen) const {
        std::vector<std::string> lines;
        for (const survey::Sign& sign : seen.signs) {
            const trade::SignRule* rule = material_.trade.sign(*one_.kind, sign.code);
            std::vector<std::string> parts{rule->name};
            if (!sign.where.empty()) parts.push_back(sign.where);
            if (sign.count) parts.push_back("× " + std::to_string(*sign.count));
            if (sign.length) parts.push_back(words_.numbers(sign.length->text));
            lines.push_back(sign.words.empty() ? join(parts, ", ") : said(words_, join(parts, ", "), sign.words));
        }
        if (lines.empty()) lines.push_back(words_("finding.no-sign"));
        return lines;
    }

    std::string photos_in_words(const Seen& seen) const {
        std::vector<std::string> parts;
        if (!seen.far.empty()) parts.push_back(seen.far + " " + words_("photo.far"));
        if (!seen.close.empty()) parts.push_back(seen.close + " " + words_("photo.close"));
        return parts.empty() ? words_("finding.no-photo") : join(parts, ", ");
    }

    TwoTexts meaning() const {
        std::vector<std::string> means;
        std::vector<std::string> act;
        std::vector<const trade::SignRule*> told;
        for (const trade::JudgedSign& sign : one_.signs) {
            if (std::find(told.begin(), told.end(), sign.rule) != told.end()) continue;
            told.push_back(sign.rule);
            if (!sign.rule->plainly.empty()) means.push_back(filled_rule(sign.rule->plainly, one_, material_.trade));
            means.push_back(filled_rule(sign.rule->means, one_, material_.trade));
            act.push_back(filled_rule(sign.rule->act, one_, material_.trade));
            if (!sign.rule->then.empty()) act.push_back(filled_rule(sign.rule->then, one_, material_.trade));
        }
        if (!one_.unseen_because.empty()) {
            means.push_back(words_("finding.unseen.means"));
            act.push_back(words_("finding.unseen.do"));
        }
        for (const assessment::Consequence& consequence : one_.consequences) {
            means.push_back(filled_rule(consequence.rule->means, one_, consequence, material_));
            act.push_back(filled_rule(consequence.rule->act, one_, consequence, material_));
        }
        for (const trade::JudgedSign& sign : one_.signs)
            if (sign.bars && sign.seen != nullptr && sign.seen->pass == Way::up && !one_.fitting->at_deck() &&
                material_.survey.attendance.climbed == survey::Climbed::yes) {
                means.push_back(words_("finding.seen-aloft", {{"time", sign.seen->at.hh_mm()}}));
                break;
            }
        if (one_.verdict == Verdict::watch && !one_.signs.empty())
            act.push_back(words_("finding.watch-by", {{"date", words_.date(material_.assessment.watch_by)}}));
        if (means.empty()) {
            means.push_back(words_("finding.given.means"));
            act.push_back(words_("finding.given.do"));
        }
        if (one_.fitting->verdict) means.push_back(surveyors_word());
        return {words_("finding.means"), join(means, " "), words_("finding.do"), join(act, " ")};
    }

    std::string surveyors_word() const {
        const survey::GivenVerdict& given = *one_.fitting->verdict;
        const std::string word = verdict_word(given.is, words_);
        if (given.because.empty()) return words_("finding.surveyor-plain", {{"verdict", word}});
        return words_("finding.surveyor", {{"verdict", word}, {"because", given.because}}) +
               (given.because.ends_with('.') ? "" : ".");
    }

    std::string source() const {
        std::vector<std::string> sentences;
        for (const trade::JudgedSign& sign : one_.signs) {
            const std::string sentence =
                words_("finding.source", {{"rule", said(words_, one_.kind->name + ", " + sign.rule->name,
                                                        verdict_word(sign.rule->verdict, words_))},
                                          {"source", sign.rule->source}});
            if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end())
                sentences.push_back(sentence);
        }
        for (const assessment::Consequence& consequence : one_.consequences)
            sentences.push_back(
                words_("finding.source", {{"rule", filled_rule(consequence.rule->name, one_, consequence, material_)},
                                          {"source", consequence.rule->source}}));
        for (const survey::Measured& measured : one_.fitting->measured)
            if (const std::string how = how_measured(measured, material_); !how.empty()) sentences.push_back(how);
        if (!one_.signs.empty()) sentences.push_back(words_("finding.look", {{"look", one_.kind->look}}));
        return join(sentences, " ");
    }

    const Material& material_;
    const trade::Wording& words_;
    const FittingVerdict& one_;
    bool tight_ = false;  ///< in less height
    Blocks blocks_;
};

}  // namespace

void findings(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, MastMargin{true});
    if (material.assessment.findings.empty()) add(blocks, Paragraph{words("finding.none"), Tone::intro});
    for (const std::size_t i : material.assessment.findings) {
        FindingWriter writer(material, material.assessment.fittings[i]);
        add(blocks, Together{writer.write(false), writer.write(true)});
        add(blocks, Space{10_pt});
    }
    add(blocks, MastMargin{false});
}

}  // namespace rigdeed::report
