#include "works/compose.hpp"

#include "base/text.hpp"

namespace rigdeed::works {
namespace {

using namespace document;

constexpr double inch = 72;
constexpr double dots_an_inch = 300;

template <class T>
void add(std::vector<Block>& blocks, T block) {
    blocks.push_back(Block{std::move(block)});
}

std::string anchor_of(const Line& line) { return "item-" + std::to_string(line.asked->item); }

class Composer {
 public:
    explicit Composer(const Material& material) : material_(material), words_(material.trade.wording) {}

    Document run() {
        Document paper;
        paper.head.yacht = survey().yacht.name;
        paper.foot.paper = words_("works-done.footer", {{"number", material_.works.number}});
        paper.foot.data = words_("footer.data", {{"digest", grouped(material_.data_digest.substr(0, 16))}});
        paper.foot.page_of_pages = words_("footer.page", {{"page", "{page}"}, {"pages", "{pages}"}});
        if (material_.signer.empty()) {
            paper.head.stamps.push_back(words_("stamp.preview"));
            paper.watermark = words_("stamp.preview");
        }
        cover(paper.cover);
        add(paper.blocks, PageBreak{});
        add(paper.blocks, Heading{Level::title, words_("works-done.list"), "", "works", "1"});
        list(paper.blocks);
        add(paper.blocks, Heading{Level::title, words_("works-done.done"), "", "done", "2"});
        for (const Line& line : material_.conclusion.lines)
            if (line.item != nullptr && line.item->done && *line.item->done != Done::no) item(line, paper.blocks);
        check(paper.blocks);
        return paper;
    }

 private:
    const survey::Survey& survey() const { return material_.answered.survey; }

    static std::string grouped(const std::string& hex) {
        std::string text;
        for (std::size_t i = 0; i < hex.size(); ++i) text += (i > 0 && i % 4 == 0 ? " " : "") + std::string(1, hex[i]);
        return text;
    }

    void cover(std::vector<Block>& blocks) const {
        add(blocks, head());
        add(blocks, plate());
        add(blocks, Paragraph{words_("works-done.intro", {{"number", survey().number},
                                                          {"date", words_.date(material_.answered.issued)},
                                                          {"signer", material_.report_signer}}),
                              Tone::intro});
        add(blocks, parties());
        add(blocks, counts());
        Caution caution{words_("caution.title"), {}, {}};
        if (material_.conclusion.do_not_climb) caution.paragraphs.push_back(words_("works-done.caution.climb"));
        caution.paragraphs.push_back(words_("works-done.caution.who"));
        caution.paragraphs.push_back(words_("works-done.caution.defer"));
        add(blocks, std::move(caution));
        add(blocks, Fingerprint{words_("works-done.report-sha256"), "", material_.report_sha256});
        add(blocks, Fingerprint{words_("cover.digest"), "", material_.data_digest});
    }

    CoverHead head() const {
        const WorksDone& works = material_.works;
        CoverHead head;
        head.firm = works.firm.empty() ? works.rigger : works.firm;
        head.surveyor = works.contact.empty() ? works.rigger : works.rigger + " · " + works.contact;
        head.document = words_("works-done.document", {{"number", works.number}});
        head.issued = words_("cover.issued", {{"date", words_.date(material_.issued_on)}, {"pages", "{pages}"}});
        head.yacht = survey().yacht.name;
        head.yacht_lines = {words_("works-done.to-report",
                                   {{"number", survey().number}, {"date", words_.date(material_.answered.issued)}})};
        if (!survey().yacht.hin.empty()) head.yacht_lines.push_back(words_("cover.hin", {{"hin", survey().yacht.hin}}));
        return head;
    }

    AnswerPlate plate() const {
        AnswerPlate plate;
        const Conclusion& conclusion = material_.conclusion;
        if (conclusion.answer == "not-to-be-sailed" || conclusion.answer == "found-worse")
            plate.verdict = Verdict::renew;
        if (conclusion.answer == "after-work") plate.verdict = Verdict::rectify;
        plate.badge = words_(conclusion.answer == "works-done" ? "works-done.badge.done" : "works-done.badge.open");
        plate.statement = words_("answer." + conclusion.answer);
        plate.detail = remains();
        if (conclusion.do_not_climb) plate.climb = words_("answer.do-not-climb");
        return plate;
    }

    std::string remains() const {
        std::vector<std::string> numbers;
        for (const Line& line : material_.conclusion.lines)
            if (!line.closed && line.asked->verdict >= Verdict::rectify)
                numbers.push_back(std::to_string(line.asked->item));
        return numbers.empty() ? words_("works-done.none-open")
                               : words_("works-done.open", {{"items", words_.listed(numbers)}});
    }

    Facts parties() const {
        const WorksDone& works = material_.works;
        std::vector<std::string> rigger{works.rigger};
        if (!works.qualification.empty()) rigger.push_back(works.qualification);
        if (!works.firm.empty()) rigger.push_back(works.firm);
        Facts facts;
        facts.facts = {
            {words_("works-done.rigger"), rigger},
            {words_("works-done.surveyor"), {survey().surveyor.name, survey().surveyor.firm}},
            {words_("works-done.surveyed"), {words_.date(survey().attendance.on), survey().attendance.place}}};
        facts.columns = facts.facts.size();
        return facts;
    }

    /// How many of each verdict are done, and how many there were.
    Table counts() const {
        Table table;
        table.columns = {{"", 0.08, Align::left},
                         {words_("works-done.head.verdict"), 0.42, Align::left, true},
                         {words_("works-done.head.listed"), 0.25, Align::right},
                         {words_("works-done.head.open"), 0.25, Align::right}};
        RowGroup group;
        for (const Verdict verdict : survey::worst_first) {
            std::size_t listed = 0;
            for (const Line& line : material_.conclusion.lines) listed += line.asked->verdict == verdict ? 1U : 0U;
            if (listed == 0) continue;
            Row row;
            row.cells.resize(4);
            row.cells[0].mark = VerdictMark{verdict, 0};
            row.cells[1].bold = words_("verdict." + survey::name_of(verdict));
            row.cells[2].lines = {std::to_string(listed)};
            row.cells[3].lines = {std::to_string(material_.conclusion.open[static_cast<std::size_t>(verdict)])};
            group.rows.push_back(std::move(row));
        }
        table.groups = {std::move(group)};
        return table;
    }

    /// "done, 4 November 2026, by Per Holm"
    std::string answer(const Line& line) const {
        const Item& item = *line.item;
        std::string text = words_("works-done." + name_of(*item.done));
        if (item.on) text += ", " + words_.date(*item.on);
        return text + ", " + (item.by.empty() ? material_.works.rigger : item.by);
    }

    void list(std::vector<Block>& blocks) const {
        Table table;
        table.small = true;
        table.columns = {{"", 0.07, Align::left},
                         {words_("works.head.work"), 0.45, Align::left, true},
                         {words_("works-done.head.answer"), 0.41, Align::left},
                         {words_("works.head.page"), 0.07, Align::right}};
        RowGroup open{words_("works-done.group.open"), "", {}}, closed{words_("works-done.group.done"), "", {}};
        for (const Line& line : material_.conclusion.lines) {
            Row row;
            row.cells.resize(4);
            row.cells[0].mark = VerdictMark{line.asked->verdict, line.asked->item};
            row.cells[1].bold = line.asked->words;
            if (!line.asked->because.empty()) row.cells[1].lines = {line.asked->because};
            row.cells[2].bold = answer(line);
            if (!line.item->words.empty()) row.cells[2].lines = {line.item->words};
            if (*line.item->done != Done::no) row.cells[3].page_of = row.link = anchor_of(line);
            (line.closed ? closed : open).rows.push_back(std::move(row));
        }
        for (RowGroup* group : {&open, &closed})
            if (!group->rows.empty()) table.groups.push_back(std::move(*group));
        add(blocks, std::move(table));
    }

    Picture photo(const std::string& name, const char* role, const record::Work& work) const {
        Picture picture;
        picture.role = words_(role);
        picture.caption = name;
        picture.alternative =
            words_("photo.alternative", {{"name", name}, {"role", picture.role}, {"fitting", work.words}});
        const evidence::Photo* found = material_.evidence.find(name);
        if (found == nullptr || !found->usable()) return picture;
        picture.jpeg = found->print.jpeg;
        picture.width = found->print.width;
        picture.height = found->print.height;
        if (found->facts.taken) picture.caption += ", " + words_.date(found->facts.taken->date);
        return picture;
    }

    void item(const Line& line, std::vector<Block>& blocks) const {
        const Item& item = *line.item;
        std::vector<Block> together;
        add(together, Heading{Level::section, std::to_string(line.asked->item) + ". " + line.asked->words, "",
                              anchor_of(line), ""});
        add(together, Paragraph{answer(line) + (item.words.empty() ? "." : ". " + item.words), Tone::body});
        if (const Table sizes = parts(item); !sizes.groups.front().rows.empty()) add(together, sizes);
        PictureRow row;
        row.columns = photos_in_a_row(material_.works);
        if (!item.before.empty()) row.photos.push_back(photo(item.before, "works-done.before", *line.asked));
        if (!item.after.empty()) row.photos.push_back(photo(item.after, "works-done.after", *line.asked));
        if (!row.photos.empty()) add(together, std::move(row));
        add(blocks, Together{std::move(together)});
    }

    /// What was fitted and measured.
    Table parts(const Item& item) const {
        Table table;
        table.small = true;
        table.columns = {{"", 0.62, Align::left, true}, {"", 0.38, Align::left}};
        RowGroup group;
        const auto add_row = [&](const std::string& what, const std::string& more) {
            Row row;
            row.cells.resize(2);
            row.cells[0].bold = what;
            if (!more.empty()) row.cells[1].lines = {more};
            group.rows.push_back(std::move(row));
        };
        const auto certificate = [&](const std::string& number) {
            return number.empty() ? words_("works-done.no-certificate")
                                  : words_("works-done.certificate", {{"number", number}});
        };
        for (const Renewed& one : item.renewed) {
            const survey::Stay* stay = survey().stay(one.stay);
            const trade::Make* make = material_.trade.make(one.make);
            std::string what = stay != nullptr ? trade::stay_name(*stay, material_.trade) : one.stay;
            what += ": " + (make != nullptr ? make->name : one.make) + ", " + one.alloy;
            if (one.diameter) what += ", " + words_.numbers(one.diameter->text);
            if (!one.because.empty()) what += " (" + one.because + ")";
            add_row(capitalised(what), certificate(one.certificate));
        }
        for (const Part& one : item.parts) add_row(one.what, certificate(one.certificate));
        for (const Measured& one : item.measured) add_row(one.what, one.value);
        table.groups = {std::move(group)};
        return table;
    }

    void check(std::vector<Block>& blocks) const {
        add(blocks, PageBreak{});
        add(blocks, Heading{Level::title, words_("works-done.check"), "", "check", "3"});
        add(blocks, Paragraph{words_(material_.signer.empty() ? "check.intro-unsigned" : "works-done.check.intro"),
                              Tone::intro});
        if (material_.signer.empty()) return;
        add(blocks, Step{"1", words_("check.reader.title"), words_("check.reader.text"), {}});
        add(blocks, Step{"2", words_("check.fingerprint.title"), words_("works-done.check.fingerprint"), {}});
        add(blocks, Step{"3",
                         words_("check.program.title"),
                         words_("works-done.check.program"),
                         {words_("works-done.check.output", {{"fingerprint", material_.fingerprint.substr(0, 32)}})}});
        add(blocks, Fingerprint{words_("check.print.title"), material_.signer, material_.fingerprint});
    }

    const Material& material_;
    const trade::Wording& words_;
};

}  // namespace

document::Document compose_follow_up(const Material& material) { return Composer(material).run(); }

std::size_t photos_in_a_row(const WorksDone& works) {
    constexpr std::size_t few = 8;
    return photo_names(works).size() > 2 * few ? 3 : 2;
}

evidence::ForPrint for_print(const WorksDone& works) {
    evidence::ForPrint print;
    const double width = measures::text_width.value / static_cast<double>(photos_in_a_row(works));
    for (const std::string& name : photo_names(works))
        print.sizes[name] = static_cast<int>(width / inch * dots_an_inch);
    return print;
}

}  // namespace rigdeed::works
