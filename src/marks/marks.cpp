#include "marks/marks.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/fields.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "survey/read_parts.hpp"

namespace rigdeed::marks {
namespace {

constexpr std::size_t most_statements = 50'000;
constexpr std::size_t longest_value = 4000;

std::optional<std::string> read_digest(std::string_view text) {
    const bool good = text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
    return good ? std::optional(std::string(text)) : std::nullopt;
}

xml::Element element(std::string_view name, int line) {
    xml::Element made;
    made.name = name;
    made.line = line;
    return made;
}

void set(xml::Element& to, std::string_view name, std::string_view value) {
    xml::Attribute attribute;
    attribute.name = name;
    attribute.value = value;
    attribute.line = to.line;
    to.attributes.push_back(std::move(attribute));
}

class MarksReader {
 public:
    MarksReader(const std::string& file, Problems& problems) : file_(file), problems_(problems) {}

    Marks read(const xml::Element& root) {
        Marks marks;
        marks.file = file_;
        Fields fields(root, "<rig-marks>", file_, problems_);
        if (fields.text("xmlns") != marks_namespace)
            fields.say(root.line, "the namespace is not that of marks",
                       "write xmlns=\"" + std::string(marks_namespace) + "\"");
        marks.number = fields.text("number");
        marks.survey_sha256 =
            fields.value<std::string>("survey-sha256", true, read_digest, "a SHA-256 digest", "64 of 0-9 and a-f")
                .value_or("");
        std::vector<std::string> known;
        for (const Shape& shape : shapes()) known.emplace_back(shape.element);
        fields.finish(known);
        if (root.children.size() > most_statements) {
            fields.say(root.line, "it holds " + std::to_string(root.children.size()) + " statements",
                       std::to_string(most_statements) + " are the most");
            return marks;
        }
        std::map<std::string, int> places;
        for (const xml::Element& child : root.children)
            for (const Shape& shape : shapes()) {
                if (shape.element != child.name) continue;
                marks.statements.push_back(read_one(child, shape));
                if (shape.about == About::sign) continue;  // a look may hold several
                const auto [first, fresh] = places.emplace(marks.statements.back().label(), child.line);
                if (!fresh)
                    fields.say(
                        child.line,
                        "two statements about one place: the other stands in line " + std::to_string(first->second),
                        "keep one of them");
            }
        return marks;
    }

 private:
    Statement read_one(const xml::Element& element, const Shape& shape) {
        const std::string label = "<" + element.name + ">";
        Fields fields(element, label, file_, problems_);
        Statement statement;
        statement.line = element.line;
        statement.about = shape.about;
        if (shape.of_fitting) statement.fitting = fields.token("fitting");
        const bool needs_pass = shape.about == About::look || shape.about == About::sign;
        if (needs_pass || shape.about == About::not_seen)
            statement.pass = fields.choice("pass", survey::names(survey::Way{}), needs_pass);
        if (!shape.name.empty()) statement.name = fields.text(shape.name);
        fields.finish({"was", "is"});
        for (const xml::Element& child : element.children) {
            if (child.name != "was" && child.name != "is") continue;
            auto& place = child.name == "was" ? statement.was : statement.is;
            if (place) fields.say(child.line, "a second <" + child.name + ">", "keep one of them");
            place = read_cell(child, shape);
        }
        if (!statement.was && !statement.is)
            fields.say(element.line, "it says neither what was nor what is", "give <was …/> or <is …/>, or both");
        if (statement.is) check(statement, shape);
        return statement;
    }

    Cell read_cell(const xml::Element& element, const Shape& shape) {
        Fields fields(element, "<" + element.name + ">", file_, problems_);
        Cell cell;
        for (const std::string_view name : shape.attributes) {
            std::string value = fields.optional_text(name, longest_value);
            if (!value.empty()) cell.attributes.emplace(name, squeezed(value));
        }
        if (shape.words) cell.words = squeezed(element.text);
        fields.finish({}, shape.words);
        return cell;
    }

    /// As if it stood in a survey already.
    void check(const Statement& statement, const Shape& shape) {
        xml::Element said = element(shape.in_survey, statement.line);
        if (statement.pass && statement.about != About::sign) set(said, "pass", survey::name_of(*statement.pass));
        if (!shape.name.empty()) set(said, shape.name, statement.name);
        for (const auto& [name, value] : statement.is->attributes) set(said, name, value);
        said.text = statement.is->words;
        xml::Element root = element("rig-survey", statement.line);
        if (!shape.of_fitting) {
            xml::Element photos = element("photos", statement.line);
            set(photos, "folder", "photos");
            photos.children.push_back(std::move(said));
            root.children.push_back(std::move(photos));
        } else {
            if (statement.about == About::sign) {
                xml::Element seen = element("seen", statement.line);
                set(seen, "pass", "up");
                set(seen, "at", "00:00");
                seen.children.push_back(std::move(said));
                said = std::move(seen);
            }
            xml::Element fitting = element("fitting", statement.line);
            for (const auto& [name, value] : {std::pair<std::string, std::string>("id", statement.fitting),
                                              {"kind", "any"},
                                              {"station", "deck"},
                                              {"height", "1 m"}})
                set(fitting, name, value);
            fitting.children.push_back(std::move(said));
            xml::Element list = element("fittings", statement.line);
            list.children.push_back(std::move(fitting));
            root.children.push_back(std::move(list));
        }
        (void)survey::take_open(root);
        survey::Survey ignored;
        survey::read_sections(root, ignored, problems_in_survey_);
        for (Problem& problem : problems_in_survey_) {
            problem.at.file = file_;
            problems_.push_back(std::move(problem));
        }
        problems_in_survey_.clear();
    }

    const std::string& file_;
    Problems& problems_;
    Problems problems_in_survey_;
};

void write_cell(std::string& out, const char* name, const std::optional<Cell>& cell, const Shape& shape) {
    if (!cell) return;
    out += "    <" + std::string(name);
    for (const std::string_view attribute : shape.attributes)
        if (const auto found = cell->attributes.find(std::string(attribute)); found != cell->attributes.end())
            out += " " + found->first + "=\"" + xml::escaped(found->second) + "\"";
    out += cell->words.empty() ? "/>\n" : ">" + xml::escaped(cell->words) + "</" + name + ">\n";
}

}  // namespace

const std::vector<Shape>& shapes() {
    static const std::vector<Shape> all{
        {About::look, "look", "seen", {"at", "far", "on-far", "close", "because"}, "", true, false},
        {About::sign, "sign", "sign", {"code", "where", "count", "length", "mark"}, "", true, true},
        {About::not_seen, "not-seen", "not-seen", {"reason"}, "", true, false},
        {About::measured, "measured", "measured", {"value", "from", "along"}, "what", true, false},
        {About::scale, "scale", "scale", {"length", "of", "along"}, "photo", false, false},
        {About::other, "other", "other", {"shows", "is"}, "name", false, false}};
    return all;
}

const Shape& shape_of(About about) {
    for (const Shape& shape : shapes())
        if (shape.about == about) return shape;
    throw Error("a statement about nothing", {}, {}, ExitCode::bug);
}

Cell cell_of(const xml::Element& element, const Shape& shape) {
    Cell cell;
    for (const std::string_view name : shape.attributes)
        if (const auto value = element.get(name); value && !squeezed(*value).empty())
            cell.attributes.emplace(name, squeezed(*value));
    if (shape.words) cell.words = squeezed(element.text);
    return cell;
}

std::string Cell::text() const {
    std::vector<std::string> parts;
    for (const auto& [name, value] : attributes) parts.push_back(name + "=" + in_quotes(value));
    if (!words.empty()) parts.push_back(in_quotes(words));
    return parts.empty() ? "nothing" : join(parts, " ");
}

std::string Statement::label() const {
    const Shape& shape = shape_of(about);
    std::vector<std::string> parts;
    parts.push_back(shape.of_fitting ? fitting : "photo " + shown(name));
    if (pass) parts.push_back(survey::name_of(*pass));
    if (about != About::look)
        parts.push_back(std::string(shape.element) + (about == About::measured ? " " + shown(name) : std::string()));
    return join(parts, ", ");
}

Reading read_marks(std::string_view text, const std::string& file) {
    auto [root, problems] = xml::read(text, file);
    if (!root) return {std::nullopt, std::move(problems)};
    if (root->name != "rig-marks")
        return {std::nullopt,
                {{{file, root->line},
                  "the root element is <" + root->name + ">, not <rig-marks>",
                  "is this a file that the marking page saved?"}}};
    Marks marks = MarksReader(file, problems).read(*root);
    std::stable_sort(problems.begin(), problems.end(),
                     [](const Problem& a, const Problem& b) { return a.at.line < b.at.line; });
    if (!problems.empty()) return {std::nullopt, std::move(problems)};
    return {std::move(marks), {}};
}

std::string write_marks(const Marks& marks) {
    std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<rig-marks xmlns=\"" + std::string(marks_namespace) +
                      "\" number=\"" + xml::escaped(marks.number) + "\" survey-sha256=\"" + marks.survey_sha256 +
                      "\">\n";
    for (const Statement& statement : marks.statements) {
        const Shape& shape = shape_of(statement.about);
        out += "  <" + std::string(shape.element);
        if (shape.of_fitting) out += " fitting=\"" + xml::escaped(statement.fitting) + "\"";
        if (statement.pass) out += " pass=\"" + survey::name_of(*statement.pass) + "\"";
        if (!shape.name.empty()) out += " " + std::string(shape.name) + "=\"" + xml::escaped(statement.name) + "\"";
        out += ">\n";
        write_cell(out, "was", statement.was, shape);
        write_cell(out, "is", statement.is, shape);
        out += "  </" + std::string(shape.element) + ">\n";
    }
    return out + "</rig-marks>\n";
}

}  // namespace rigdeed::marks
