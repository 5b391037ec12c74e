#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "report/alike_findings.hpp"
#include "report/changes.hpp"
#include "report/finding_drawing.hpp"
#include "report/finding_meaning.hpp"
#include "report/rig_drawing.hpp"
#include "report/scale_bar.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;
using survey::Seen;
using survey::Way;

/// How much room a finding takes.
struct Form {
    Points radius = measures::detail_radius;  ///< of the circle that enlarges a mark
    bool others_in_row = false;
    bool in_one_row = false;
    bool lean = false;   ///< facts in a line, passes in small letters
    Points where{94};    ///< height of the place on the rig, where nothing enlarged stands beside it
    bool small = false;  ///< what it means, in smaller letters
};

/// The roomiest first. What stands on half a page keeps every photo and every word.
constexpr std::array forms{Form{98_pt, false, false, false, 170_pt},
                           Form{98_pt, true, false, false, 130_pt},
                           Form{98_pt, true, false, true, 150_pt},
                           Form{98_pt, true, false, true, 120_pt, true},
                           Form{84_pt, true, false, true, 120_pt},
                           Form{84_pt, true, false, true, 94_pt, true},
                           Form{70_pt, true, false, true},
                           Form{56_pt, true, false, true, 94_pt, true},
                           Form{measures::row_detail_radius, false, true, true, 94_pt, true}};

/// Up to here the enlargement is as large as it gets: what is most urgent is set no closer for a neighbour's sake.
constexpr std::size_t last_of_full_size = 3;
static_assert(forms[last_of_full_size].radius == measures::detail_radius &&
              forms[last_of_full_size + 1].radius < measures::detail_radius);

class FindingWriter {
 public:
    FindingWriter(const Material& material, const FittingVerdict& one)
        : material_(material), words_(material.trade.wording), one_(one), drawn_(finding_drawing(material, one)) {
        const auto pairs = pairs_worst_first();
        const auto& measured = one.fitting->measured;
        for (std::size_t i = 0; i < measured.size() && !pairs.empty(); ++i)
            if (!measured[i].along.empty() && !measured[i].from.empty() &&
                (measured[i].from == pairs.front()->far || measured[i].from == pairs.front()->close))
                drawn_.told[i] = true;
    }

    std::vector<Block> write(Form form) {
        form_ = form;
        blocks_.clear();
        add(blocks_, finding_head(material_, one_));
        if (form_.lean) {
            std::string& line = std::get<FindingHead>(blocks_.back().value).place;
            line = facts_line();
            if (has_passes() && form_.in_one_row && !passes_remark().empty())
                line += " · " + said(words_, words_("finding.passes"), passes_remark());
        } else {
            add(blocks_, facts());
        }
        photos();
        if (has_passes()) passes();
        add(blocks_, finding_meaning(material_, one_));
        std::get<TwoTexts>(blocks_.back().value).small = form_.small;
        if (std::string before = last_time(material_, one_); !before.empty() && !has_passes())
            add(blocks_, Paragraph{std::move(before), form_.small ? Tone::small : Tone::body});
        add(blocks_, Paragraph{finding_source(material_, one_), form_.small ? Tone::note : Tone::quiet});
        return std::move(blocks_);
    }

    /// Kind, stay, place, and what was measured, each in a column of its own.
    Facts facts() const {
        Facts facts;
        facts.facts = {{words_("finding.kind"), {one_.kind->name}},
                       {words_("finding.stay"), {one_.stay != nullptr ? short_stay() : words_("finding.no-stay")}},
                       {words_("rig.where"), place_lines(material_, one_)}};
        if (one_.stay != nullptr && one_.stay->fitted)
            facts.facts[1].lines.push_back(words_("finding.fitted") + " " + words_.date(*one_.stay->fitted) + ", " +
                                           words_("rig.by." + survey::name_of(*one_.stay->age_source)));
        Facts::Fact measured{words_("finding.measured"), {}};
        for (std::size_t i = 0; i < one_.fitting->measured.size(); ++i)  // the others stand where they were taken
            if (!drawn_.told[i]) measured.lines.push_back(measured_words(one_.fitting->measured[i], material_.trade));
        if (!measured.lines.empty()) facts.facts.push_back(std::move(measured));
        if (nothing_seen()) add_passes(facts);
        facts.columns = std::max<std::size_t>(facts.facts.size(), 4);
        return facts;
    }

    /// The same in one line.
    std::string facts_line() const {
        std::vector<std::string> parts;
        for (const Facts::Fact& fact : facts().facts) parts.push_back(join(fact.lines, ", "));
        return join(parts, " · ");
    }

    bool has_passes() const { return !one_.absent && !one_.fitting->seen.empty() && !nothing_seen(); }

    /// Looked at, and no sign of its own: one line says so.
    bool nothing_seen() const {
        return one_.signs.empty() && one_.unseen_because.empty() && !one_.fitting->seen.empty() && !one_.absent;
    }

    void add_passes(Facts& facts) const {
        std::vector<std::string> times;
        for (const Seen& seen : one_.fitting->seen)
            times.push_back(words_(seen.pass == Way::up ? "finding.up" : "finding.down") + " " + seen.at.hh_mm());
        facts.facts.push_back({words_("finding.passes"), {join(times, ", "), words_("finding.no-sign")}});
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
        exhibit.radius = form_.radius;
        exhibit.others_in_row = form_.others_in_row;
        exhibit.in_one_row = form_.in_one_row;
        exhibit.schematic = drawn_.drawing;
        if (!pairs.empty()) exhibit.photos = pair(*pairs.front()), point_to_measures(exhibit, *pairs.front());
        if (!pairs.empty() && exhibit.schematic) enlarge(exhibit, *pairs.front());
        if (form_.in_one_row && exhibit.detail && !exhibit.photos.empty() && !exhibit.detail->second.empty())
            exhibit.photos.back().second.clear();  // said of the enlargement, which is of the same pixels
        if (!form_.in_one_row) {
            const Points height = exhibit.schematic && exhibit.detail ? form_.radius * 2 : form_.where;
            exhibit.where = place_on_rig(material_, one_, {measures::place_width, height});
            exhibit.where_words.role = words_("rig.where");
            exhibit.where_words.caption = place_in_words(material_, one_);
        }
        const bool beneath = !exhibit.schematic && !form_.in_one_row;
        std::vector<Picture> other = pairs.size() > 1 ? pair(*pairs.back()) : std::vector<Picture>();
        if (form_.others_in_row || form_.in_one_row)
            for (Picture& photo : other) photo.second.clear();  // the close one's limit stands in the register, too
        if (auto before = last_picture(material_, one_)) other.push_back(std::move(*before));
        if (!beneath) exhibit.others = std::move(other);
        add(blocks_, std::move(exhibit));
        if (beneath && !other.empty()) {
            PictureRow row;
            row.columns = 4;
            row.photos = std::move(other);
            add(blocks_, std::move(row));
        }
    }

    /// What was measured on these photos, from end to end; an angle's value stands at its first leg.
    void point_to_measures(Exhibit& exhibit, const Seen& seen) const {
        for (const survey::Measured& measured : one_.fitting->measured) {
            if (measured.from.empty() || (measured.from != seen.far && measured.from != seen.close)) continue;
            const std::size_t photo = measured.from == seen.close ? exhibit.photos.size() - 1 : 0;
            for (std::size_t i = 0; i + 1 < measured.along.size(); i += 2)
                exhibit.pointers.push_back({photo, measured.along[i].x, measured.along[i].y, measured.along[i + 1].x,
                                            measured.along[i + 1].y,
                                            i == 0 ? words_.numbers(measured.value) : std::string()});
        }
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
        detail.caption = words_(form_.in_one_row ? "photo.enlarged-of" : "photo.enlarged-from", {{"name", seen.close}});
        detail.alternative = said(
            words_, words_("photo.alternative", {{"name", seen.close}, {"role", detail.role}, {"fitting", one_.name}}),
            enlarged_sign(seen));
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
            if (photo.jpeg) photo.alternative = said(words_, photo.alternative, signs_named(seen));
            if (name == seen.far) photo.ring = seen.on_far;
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

    std::string passes_remark() const {
        if (one_.seen_once) return words_("finding.passes.once");
        return one_.passes_differ ? words_("finding.passes.differ") : std::string();
    }

    void passes() {
        const std::string remark = form_.in_one_row ? std::string() : passes_remark();
        Table table;
        table.small = form_.lean;
        table.columns = {
            {"", 0.09, Align::left, true}, {"", 0.07, Align::left}, {"", 0.62, Align::left}, {"", 0.22, Align::right}};
        RowGroup group{form_.lean && remark.empty() ? std::string() : words_("finding.passes"), remark, {}};
        for (const Way pass : {Way::up, Way::down}) group.rows.push_back(pass_row(pass));
        if (std::string before = last_time(material_, one_); !before.empty()) {
            Row row;
            row.cells.resize(4);
            row.cells[0].bold = words_("changes.photo");
            row.cells[2].lines = {std::move(before)};
            group.rows.push_back(std::move(row));
        }
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
            const std::string what = sign_words(words_, *one_.kind, rule->name, sign);
            lines.push_back(sign.words.empty() ? what : said(words_, what, sign.words));
        }
        if (lines.empty()) lines.push_back(words_("finding.no-sign"));
        return lines;
    }

    /// What was seen in this pass, for who cannot see its photos.
    std::string signs_named(const Seen& seen) const {
        std::vector<std::string> names;
        for (const survey::Sign& sign : seen.signs)
            add_once(names, sign_words(words_, *one_.kind, material_.trade.sign(*one_.kind, sign.code)->name, sign));
        return names.empty() ? words_("finding.no-sign") : join(names, "; ");
    }

    /// The worst of those with a mark: the one that is enlarged.
    std::string enlarged_sign(const Seen& seen) const {
        for (const trade::JudgedSign& sign : one_.signs)
            if (sign.seen == &seen && sign.sign->mark)
                return sign_words(words_, *one_.kind, sign.rule->name, *sign.sign);
        return signs_named(seen);
    }

    std::string photos_in_words(const Seen& seen) const {
        std::vector<std::string> parts;
        if (!seen.far.empty()) parts.push_back(seen.far + " " + words_("photo.far"));
        if (!seen.close.empty()) parts.push_back(seen.close + " " + words_("photo.close"));
        return parts.empty() ? words_("finding.no-photo") : join(parts, ", ");
    }

 private:
    const Material& material_;
    const trade::Wording& words_;
    const FittingVerdict& one_;
    FittingDrawing drawn_;
    Form form_;
    Blocks blocks_;
};

}  // namespace

void findings(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    if (material.assessment.findings.empty()) add(blocks, Paragraph{words("finding.none"), Tone::intro});
    Stack stack;
    stack.between = 11_pt;
    AlikeFindings alike(material);
    for (const std::size_t i : material.assessment.findings) {
        const FittingVerdict& one = material.assessment.fittings[i];
        if (tells_nothing_of_its_own(material, one)) {
            if (alike.take(one, stack.pieces.size())) stack.pieces.emplace_back();
            continue;
        }
        Stack::Piece piece;
        if (!one.signs.empty() && (one.verdict == Verdict::renew || one.bars_climbing))
            piece.shared = last_of_full_size;
        FindingWriter writer(material, one);
        for (const Form& form : forms) piece.ways.push_back(writer.write(form));
        stack.pieces.push_back(std::move(piece));
    }
    alike.write(stack);
    if (!stack.pieces.empty()) add(blocks, std::move(stack));
}

}  // namespace rigdeed::report
