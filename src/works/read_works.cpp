#include <algorithm>
#include <set>

#include "base/fields.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "crypto/certificate.hpp"
#include "survey/read_parts.hpp"
#include "works/works.hpp"

namespace rigdeed::works {
namespace {

constexpr std::size_t most_items = 5000;

bool blank(std::string_view text) { return !text.empty() && text.find_first_not_of("? ") == std::string_view::npos; }

/// A blank of the form is as good as nothing; that it is one is in the list of what is open.
void drop_blanks(xml::Element& element) {
    std::erase_if(element.attributes, [](const xml::Attribute& one) { return blank(one.value); });
    if (blank(squeezed(element.text))) element.text.clear();
    for (xml::Element& child : element.children) drop_blanks(child);
}

class Reader {
 public:
    Reader(const std::string& file, Problems& problems) : file_(file), problems_(problems) {}

    WorksDone read(xml::Element& root) {
        Fields fields(root, "<works-done>", file_, problems_);
        WorksDone works;
        works.file = file_;
        works.open = survey::take_open(root);
        drop_blanks(root);
        if (fields.text("xmlns") != works_namespace)
            fields.say(root.line, "the namespace is not that of a works file",
                       "write xmlns=\"" + std::string(works_namespace) + "\"");
        works.number = fields.optional_token("number");
        fields.finish({"report", "rigger", "photos", "item"});
        for (const char* name : {"report", "rigger", "photos"})
            if (root.child(name) == nullptr)
                fields.say(root.line, "<" + std::string(name) + "> is missing",
                           "rigdeed start --works REPORT.pdf writes a whole form");
        std::set<std::string> once;
        for (const xml::Element& child : root.children) {
            if (child.name != "item" && !once.insert(child.name).second)
                fields.say(child.line, "a second <" + child.name + ">", "keep one of them");
            if (child.name == "report") report(child, works);
            if (child.name == "rigger") rigger(child, works);
            if (child.name == "photos") photos(child, works);
            if (child.name == "item" && works.items.size() < most_items) works.items.push_back(item(child));
        }
        std::set<int> numbers;
        for (const Item& one : works.items)
            if (!numbers.insert(one.number).second)
                fields.say(one.line, "a second <item number=\"" + std::to_string(one.number) + "\">",
                           "answer each item of the list once");
        return works;
    }

 private:
    Fields fields_of(const xml::Element& element, std::string label) {
        return {element, std::move(label), file_, problems_};
    }

    void report(const xml::Element& element, WorksDone& works) {
        Fields fields = fields_of(element, "<report>");
        works.report_line = element.line;
        works.report_file = fields.text("file");
        works.report_number = fields.token("number");
        works.yacht = fields.optional_text("yacht");
        works.report_sha256 = crypto::read_fingerprint(fields.text("sha256", 64));
        if (!works.report_sha256)
            fields.say(element.line, "sha256 is not a SHA-256", "write the 64 hex digits of `sha256sum` of the report");
        fields.finish();
    }

    void rigger(const xml::Element& element, WorksDone& works) {
        Fields fields = fields_of(element, "<rigger>");
        works.rigger_line = element.line;
        works.rigger = fields.optional_text("name");
        works.firm = fields.optional_text("firm");
        works.qualification = fields.optional_text("qualification");
        works.contact = fields.optional_text("contact");
        fields.finish();
    }

    void photos(const xml::Element& element, WorksDone& works) {
        Fields fields = fields_of(element, "<photos>");
        works.photos_line = element.line;
        works.photos = fields.text("folder");
        fields.finish();
    }

    Item item(const xml::Element& element) {
        Fields fields = fields_of(element, "<item>");
        Item item;
        item.line = element.line;
        item.number = fields.whole("number", 1, 1'000'000).value_or(0);
        if (!element.get("number"))
            fields.say(element.line, "number is missing",
                       "write which line of the works list it answers: number=\"1\"");
        item.asks = fields.optional_text("asks", 2000);
        item.done = fields.choice("done", names(Done{}), false);
        item.by = fields.optional_text("by");
        item.on = fields.value<Date>("on", false, read_date, "a date that exists", "2026-11-04");
        item.before = fields.optional_text("before");
        item.after = fields.optional_text("after");
        item.words = squeezed(element.text);
        constexpr std::size_t longest = 2000;
        if (item.words.size() > longest)
            fields.say(element.line, "its words are longer than " + std::to_string(longest) + " bytes",
                       "say it shorter");
        fields.finish({"renewed", "part", "measured"}, true);
        for (const xml::Element& child : element.children) {
            if (child.name == "renewed") item.renewed.push_back(renewed(child));
            if (child.name == "part") item.parts.push_back(part(child));
            if (child.name == "measured") item.measured.push_back(measured(child));
        }
        return item;
    }

    Renewed renewed(const xml::Element& element) {
        Fields fields = fields_of(element, "<renewed>");
        Renewed renewed;
        renewed.line = element.line;
        renewed.stay = fields.token("stay");
        renewed.make = fields.optional_token("make");
        renewed.alloy = fields.optional_token("alloy");
        renewed.diameter = fields.quantity<Millimetres>("diameter", Measure::length, {0.5, 100}, false);
        renewed.breaking_load = fields.quantity<Kilonewtons>("breaking-load", Measure::force, {0.1, 5000}, false);
        renewed.certificate = fields.optional_text("certificate");
        renewed.because = fields.optional_text("because", 500);
        fields.finish();
        return renewed;
    }

    Part part(const xml::Element& element) {
        Fields fields = fields_of(element, "<part>");
        Part part{element.line, fields.text("what"), fields.optional_text("certificate")};
        fields.finish();
        return part;
    }

    Measured measured(const xml::Element& element) {
        Fields fields = fields_of(element, "<measured>");
        Measured measured{element.line, fields.text("what"), fields.text("value")};
        fields.finish();
        return measured;
    }

    const std::string& file_;
    Problems& problems_;
};

}  // namespace

const std::vector<survey::Named<Done>>& names(Done) {
    static const std::vector<survey::Named<Done>> rows{
        {Done::yes, "yes"}, {Done::otherwise, "otherwise"}, {Done::no, "no"}, {Done::worse, "worse"}};
    return rows;
}

std::string name_of(Done done) {
    for (const auto& row : names(done))
        if (row.value == done) return std::string(row.name);
    return {};
}

const Item* WorksDone::item(int wanted) const {
    const auto found = std::find_if(items.begin(), items.end(), [&](const Item& one) { return one.number == wanted; });
    return found == items.end() ? nullptr : &*found;
}

Reading read_works(std::string_view text, const std::string& file) {
    auto [root, problems] = xml::read(text, file);
    if (!root) return {std::nullopt, std::move(problems)};
    if (root->name != "works-done")
        return {std::nullopt,
                {{{file, root->line},
                  "the root element is <" + root->name + ">, not <works-done>",
                  "rigdeed start --works REPORT.pdf writes a works file"}}};
    WorksDone works = Reader(file, problems).read(*root);
    std::stable_sort(problems.begin(), problems.end(),
                     [](const Problem& a, const Problem& b) { return a.at.line < b.at.line; });
    if (!problems.empty()) return {std::nullopt, std::move(problems)};
    return {std::move(works), {}};
}

bool is_works_file(std::string_view text) {
    if (text.find("<works-done") == std::string_view::npos) return false;  // most files are surveys, and large
    const auto [root, problems] = xml::read(text, "");
    return root && root->name == "works-done";
}

}  // namespace rigdeed::works
