#include "report/changes.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"
#include "drawing/charts.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using years::Change;
using years::FittingChange;

std::string named(const trade::Wording& words, const std::vector<years::SignNamed>& signs) {
    std::vector<std::string> names;
    for (const years::SignNamed& sign : signs) names.push_back(sign.name);
    return words.listed(names);
}

/// Of what was there last time.
std::vector<years::SignNamed> signs_before(const FittingChange& one) {
    std::vector<years::SignNamed> signs = one.still;
    for (const auto* more : {&one.not_said, &one.gone}) signs.insert(signs.end(), more->begin(), more->end());
    return signs;
}

class ChangesWriter {
 public:
    explicit ChangesWriter(const Material& material)
        : material_(material), words_(material.trade.wording), since_(*material.since) {}

    void write(Blocks& blocks) {
        add(blocks, Paragraph{words_("changes.intro"), Tone::intro});
        add(blocks, chain());
        for (const years::Exchanged& one : since_.comparison.exchanged)
            add(blocks, Paragraph{exchanged(one), Tone::bold});
        if (const std::string guessed = guesses(); !guessed.empty()) add(blocks, Paragraph{guessed, Tone::quiet});
        add(blocks, table("changes.open", open_before()));
        add(blocks, table("changes.others", others()));
        measured(blocks);
        pictures(blocks);
    }

 private:
    Table chain() const {
        Table table;
        table.small = true;
        table.columns = {{words_("changes.head.number"), 0.17, Align::left, true},
                         {words_("changes.head.attended"), 0.14, Align::left},
                         {words_("changes.head.issued"), 0.14, Align::left},
                         {words_("changes.head.signer"), 0.19, Align::left},
                         {words_("changes.head.sha256"), 0.36, Align::left}};
        RowGroup group;
        for (const auto& past : since_.reports) {
            Row row;
            row.cells.resize(5);
            row.cells[0].bold = past->paper.number;
            row.cells[1].lines = {words_.date(past->survey.attendance.on)};
            row.cells[2].lines = {words_.date(past->paper.issued)};
            row.cells[3].lines = {past->paper.signer};
            row.cells[4].lines = {past->paper.sha256.grouped(16)};
            group.rows.push_back(std::move(row));
        }
        table.groups = {std::move(group)};
        return table;
    }

    std::string side(survey::Side side) const { return words_("rig." + survey::name_of(side)); }

    std::string exchanged(const years::Exchanged& one) const {
        if (!one.before) return words_("changes.other-fitting", {{"id", one.id}});
        return words_("changes.exchanged", {{"id", one.id}, {"then", side(*one.before)}, {"now", side(*one.now)}});
    }

    std::string guesses() const {
        std::vector<std::string> names;
        for (const FittingChange& one : since_.comparison.fittings)
            if (one.guessed) names.push_back(one.name);
        return names.empty() ? std::string() : words_("changes.guessed", {{"fittings", words_.listed(names)}});
    }

    /// What asked for work or for looking again last time, the most urgent first.
    std::vector<const FittingChange*> open_before() {
        std::vector<const FittingChange*> open;
        for (const FittingChange& one : since_.comparison.fittings)
            if (one.verdict_before && *one.verdict_before != survey::Verdict::sound) open.push_back(&one);
        std::stable_sort(open.begin(), open.end(),
                         [](const auto* a, const auto* b) { return *a->verdict_before > *b->verdict_before; });
        told_.insert(open.begin(), open.end());
        return open;
    }

    std::vector<const FittingChange*> others() const {
        std::vector<const FittingChange*> changed;
        for (const FittingChange& one : since_.comparison.fittings) {
            const bool tells = one.change != Change::same || !one.come.empty() || !one.not_said.empty();
            if (tells && !told_.contains(&one)) changed.push_back(&one);
        }
        return changed;
    }

    const assessment::FittingVerdict* finding(const FittingChange& one) const {
        for (const assessment::FittingVerdict& fitting : material_.assessment.fittings)
            if (!one.id.empty() && fitting.fitting->id == one.id && fitting.number > 0) return &fitting;
        return nullptr;
    }

    Table table(const std::string& key, const std::vector<const FittingChange*>& changes) const {
        Table table;
        table.small = true;
        table.columns = {{"", 0.07, Align::left},
                         {words_("changes.head.fitting"), 0.35, Align::left, true},
                         {words_("changes.head.then"), 0.15, Align::left},
                         {words_("changes.head.now"), 0.36, Align::left},
                         {words_("works.head.page"), 0.07, Align::right}};
        RowGroup group{words_(key), changes.empty() ? words_("changes.none") : std::string(), {}};
        for (const FittingChange* one : changes) group.rows.push_back(row(*one));
        table.groups = {std::move(group)};
        return table;
    }

    Row row(const FittingChange& one) const {
        Row row;
        row.cells.resize(5);
        row.cells[1].bold = capitalised(one.name);
        if (const auto before = signs_before(one); !before.empty()) row.cells[1].lines = {named(words_, before)};
        row.cells[2].lines = {one.verdict_before ? verdict_word(*one.verdict_before, words_)
                                                 : words_("changes.not-there")};
        row.cells[3].bold = one.verdict ? verdict_word(*one.verdict, words_) : words_("changes.not-there");
        row.cells[3].lines = became(one, words_);
        if (const assessment::FittingVerdict* now = finding(one)) {
            row.cells[0].mark = VerdictMark{now->verdict, now->number};
            const int number = now->with ? material_.assessment.fittings[*now->with].number : now->number;
            row.cells[4].page_of = finding_anchor(number);
            row.link = row.cells[4].page_of;
        }
        return row;
    }

    std::string course_words(const years::Course& course) const {
        const auto with_sign = [&](double value) {
            return (value < 0 ? "−" : "+") + words_.number(value < 0 ? -value : value, 2) + " " + course.unit;
        };
        std::string text = with_sign(course.difference);
        if (course.per_year) text += "; " + words_("changes.per-year", {{"difference", with_sign(*course.per_year)}});
        return text;
    }

    static bool moved(const years::Course& course) {
        return std::any_of(course.figures.begin(), course.figures.end(),
                           [&](const years::Figure& one) { return one.value != course.figures.front().value; });
    }

    /// What moved and was measured three times or more as a chart, else a line; all that stayed in one sentence.
    void measured(Blocks& blocks) const {
        RowGroup group{words_("changes.measured"), words_("changes.measured.remark"), {}};
        std::vector<drawing::CourseRow> charted;
        std::vector<std::string> stayed;
        for (const FittingChange& one : since_.comparison.fittings)
            for (const years::Course& course : one.courses) {
                if (!moved(course))
                    stayed.push_back(one.name + ", " + course.name + " " + words_.numbers(course.figures.back().text));
                else if (course.figures.size() > 2) charted.push_back(chart_row(one, course));
                else group.rows.push_back(course_row(one, course));
            }
        if (group.rows.empty() && charted.empty() && stayed.empty()) return;
        if (group.rows.empty()) {
            add(blocks, Heading{Level::section, group.heading, group.remark, "", ""});
        } else {
            Table table;
            table.small = true;
            table.columns = {{words_("changes.head.measure"), 0.40, Align::left, true},
                             {words_("changes.head.values"), 0.38, Align::left},
                             {words_("changes.head.difference"), 0.22, Align::right}};
            table.groups = {std::move(group)};
            add(blocks, std::move(table));
        }
        constexpr std::size_t at_once = 12;  // rows of a chart, so that one fits a page
        for (std::size_t i = 0; i < charted.size(); i += at_once) {
            const std::vector<drawing::CourseRow> some(
                charted.begin() + static_cast<std::ptrdiff_t>(i),
                charted.begin() + static_cast<std::ptrdiff_t>(std::min(charted.size(), i + at_once)));
            add(blocks, Illustration{drawing::course_chart(some, measures::text_width, words_("changes.chart")),
                                     words_("changes.chart")});
        }
        if (!stayed.empty())
            add(blocks, Paragraph{words_("changes.stayed", {{"measures", join(stayed, "; ")}}), Tone::quiet});
    }

    drawing::CourseRow chart_row(const FittingChange& one, const years::Course& course) const {
        drawing::CourseRow row{capitalised(one.name), course.name, {}, course_words(course)};
        for (const years::Figure& figure : course.figures)
            row.points.push_back(
                {years_since(course.figures.front().on, figure.on), figure.value, words_.numbers(figure.text)});
        return row;
    }

    Row course_row(const FittingChange& one, const years::Course& course) const {
        Row row;
        row.cells.resize(3);
        row.cells[0].bold = capitalised(one.name);
        row.cells[0].lines = {course.name};
        for (const years::Figure& figure : course.figures)
            row.cells[1].lines.push_back(words_.numbers(figure.text) + ", " + words_.date(figure.on));
        row.cells[2].lines = {course_words(course)};
        return row;
    }

    static double years_since(const Date& from, const Date& to) {
        constexpr double seconds_a_year = 365.2425 * 24 * 3600;
        return static_cast<double>(seconds_since_epoch({to, {0}}) - seconds_since_epoch({from, {0}})) / seconds_a_year;
    }

    void pictures(Blocks& blocks) const {
        if (since_.pictures.empty()) return;
        Table table;
        table.small = true;
        table.columns = {{words_("changes.head.picture"), 0.14, Align::left, true},
                         {words_("changes.head.fitting"), 0.40, Align::left},
                         {words_("changes.head.sha256"), 0.46, Align::left}};
        RowGroup group{words_("changes.pictures"), words_("changes.pictures.remark"), {}};
        for (const FittingChange& one : since_.comparison.fittings) {
            const auto picture = since_.pictures.find(one.id);
            if (one.id.empty() || picture == since_.pictures.end()) continue;
            Row row;
            row.cells.resize(3);
            row.cells[0].bold = picture->second.photo;
            row.cells[1].lines = {one.name};
            row.cells[2].lines = {picture->second.sha256.grouped(16)};
            group.rows.push_back(std::move(row));
        }
        table.groups = {std::move(group)};
        add(blocks, std::move(table));
    }

    const Material& material_;
    const trade::Wording& words_;
    const years::Since& since_;
    std::set<const FittingChange*> told_;
};

const FittingChange* change_of(const Material& material, const assessment::FittingVerdict& one) {
    if (material.since == nullptr) return nullptr;
    for (const FittingChange& change : material.since->comparison.fittings)
        if (change.id == one.fitting->id && !change.id.empty()) return &change;
    return nullptr;
}

}  // namespace

std::vector<std::string> became(const FittingChange& one, const trade::Wording& words) {
    std::vector<std::string> lines;
    if (one.change == Change::renewed) lines.push_back(words("changes.renewed"));
    if (one.change == Change::gone) lines.push_back(words("changes.fitting-gone"));
    if (one.change == Change::fresh) lines.push_back(words("changes.fresh"));
    const auto tell = [&](const char* key, const std::vector<years::SignNamed>& signs) {
        if (!signs.empty()) lines.push_back(words(key, {{"signs", named(words, signs)}}));
    };
    tell("changes.still", one.still);
    tell("changes.come", one.come);
    tell("changes.not-said", one.not_said);
    if (one.change != Change::gone) tell("changes.sign-gone", one.gone);
    return lines;
}

std::string last_time(const Material& material, const assessment::FittingVerdict& one) {
    const FittingChange* change = change_of(material, one);
    if (change == nullptr) return {};
    const trade::Wording& words = material.trade.wording;
    const std::string date = words.date(material.since->last().survey.attendance.on);
    if (!change->verdict_before) return words("changes.last-time.none", {{"date", date}});
    const auto before = signs_before(*change);
    return words(
        before.empty() ? "changes.last-time" : "changes.last-time.signs",
        {{"date", date}, {"verdict", verdict_word(*change->verdict_before, words)}, {"signs", named(words, before)}});
}

std::optional<Picture> last_picture(const Material& material, const assessment::FittingVerdict& one) {
    if (material.since == nullptr) return std::nullopt;
    const auto found = material.since->pictures.find(one.fitting->id);
    if (found == material.since->pictures.end()) return std::nullopt;
    const trade::Wording& words = material.trade.wording;
    Picture picture;
    picture.jpeg = found->second.print.jpeg;
    picture.width = found->second.print.width;
    picture.height = found->second.print.height;
    picture.role = words("changes.photo");
    picture.caption = found->second.photo;
    picture.second = words.date(found->second.past->survey.attendance.on);
    picture.alternative =
        words("photo.alternative",
              {{"name", picture.caption + ", " + picture.second}, {"role", picture.role}, {"fitting", one.name}});
    return picture;
}

std::string changes_in_short(const Material& material) {
    if (material.since == nullptr) return {};
    const years::Comparison& comparison = material.since->comparison;
    const auto with = [&](auto member) {
        return static_cast<std::size_t>(
            std::count_if(comparison.fittings.begin(), comparison.fittings.end(),
                          [&](const FittingChange& one) { return !(one.*member).empty(); }));
    };
    const trade::Wording& words = material.trade.wording;
    std::vector<std::string> parts;
    const auto tell = [&](const char* key, std::size_t count) {
        if (count > 0) parts.push_back(words(key, {{"n", std::to_string(count)}}));
    };
    tell("changes.cover.worse", comparison.count(Change::worse));
    tell("changes.cover.new", with(&FittingChange::come));
    tell("changes.cover.renewed", comparison.count(Change::renewed));
    tell("changes.cover.better", comparison.count(Change::better));
    tell("changes.cover.not-said", with(&FittingChange::not_said));
    if (parts.empty()) parts.push_back(words("changes.cover.none"));
    return words("changes.cover", {{"date", words.date(material.since->last().survey.attendance.on)},
                                   {"number", material.since->last().paper.number},
                                   {"parts", words.listed(parts)}});
}

void changes(const Material& material, Blocks& blocks) {
    if (material.since != nullptr) ChangesWriter(material).write(blocks);
}

}  // namespace rigdeed::report
