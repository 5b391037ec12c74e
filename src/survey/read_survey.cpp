#include "survey/read_survey.hpp"

#include <algorithm>
#include <map>
#include <optional>

#include "base/text.hpp"
#include "base/xml.hpp"
#include "survey/photo_lines.hpp"
#include "survey/read_parts.hpp"

namespace rigdeed::survey {
namespace {

const std::vector<std::string> sections{"surveyor", "client", "yacht", "attendance",
                                        "history",  "photos", "rig",   "fittings"};
const std::string may_be_left_out = "history";

constexpr std::size_t most_hints = 100;  ///< that compare an id with all others

/// Each section stands once and in this order; all but one must.
void check_sections(const xml::Element& root, Fields& fields) {
    std::size_t expected = 0;
    for (const xml::Element& child : root.children) {
        const auto place =
            static_cast<std::size_t>(std::find(sections.begin(), sections.end(), child.name) - sections.begin());
        if (place == sections.size()) continue;  // reported as unknown
        if (place + 1 == expected) fields.say(child.line, "a second <" + child.name + ">", "keep one of them");
        else if (place < expected)
            fields.say(child.line, "<" + child.name + "> stands too late", "the order is: " + join(sections, ", "));
        for (; expected < place; ++expected)
            if (root.child(sections[expected]) == nullptr && sections[expected] != may_be_left_out)
                fields.say(child.line, "<" + sections[expected] + "> is missing before <" + child.name + ">",
                           "the order is: " + join(sections, ", "));
        expected = std::max(expected, place + 1);
    }
    for (; expected < sections.size(); ++expected)
        fields.say(root.line, "<" + sections[expected] + "> is missing", "the order is: " + join(sections, ", "));
}

/// Ids are unique among stays and fittings together, also for those who read aloud or on a phone: case does not count.
void check_ids(const Survey& survey, const std::string& file, Problems& problems) {
    std::map<std::string, int> known;
    const auto check = [&](const std::string& id, int line, const char* what) {
        if (id.empty()) return;
        const auto [first, fresh] = known.emplace(lower(id), line);
        if (fresh) return;
        problems.push_back({{file, line},
                            std::string(what) + " " + in_quotes(id) + ": the id stands already in line " +
                                std::to_string(first->second),
                            "give every stay and fitting an id of its own (case does not count)"});
    };
    for (const Stay& stay : survey.stays) check(stay.id, stay.line, "stay");
    for (const Fitting& fitting : survey.fittings) check(fitting.id, fitting.line, "fitting");
}

void check_references(const Survey& survey, const std::string& file, Problems& problems) {
    std::vector<std::string> ids;
    for (const Stay& stay : survey.stays) ids.push_back(stay.id);
    std::map<std::string, std::string> hints;  // by the stay that is not there
    for (const Fitting& fitting : survey.fittings) {
        if (fitting.stay.empty() || survey.stay(fitting.stay) != nullptr) continue;
        std::string& hint = hints[fitting.stay];
        if (hint.empty())
            hint = ids.empty() || hints.size() > most_hints
                       ? "add it to <rig>"
                       : "the nearest ids: " + join(nearest(fitting.stay, ids), ", ");
        problems.push_back({{file, fitting.line},
                            "fitting " + in_quotes(fitting.id) + ": there is no stay " + in_quotes(fitting.stay),
                            hint});
    }
    for (const LoggedTension& logged : survey.history.tensions)
        if (!logged.stay.empty() && survey.stay(logged.stay) == nullptr)
            problems.push_back({{file, logged.line},
                                "<history>, <tension>: there is no stay " + in_quotes(logged.stay),
                                "the nearest ids: " + join(nearest(logged.stay, ids), ", ")});
    for (const Absent& absent : survey.absent)
        if (!absent.stay.empty() && survey.stay(absent.stay) == nullptr)
            problems.push_back({{file, absent.line},
                                "<absent>: there is no stay " + in_quotes(absent.stay),
                                "for a stay that is not there write role=\"…\" side=\"…\""});
}

/// A tag of BCP 47: a language of two or three letters, and more behind hyphens: "en", "pt-BR".
std::optional<std::string> read_language(std::string_view text) {
    const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    bool first = true;
    for (const std::string& part : split(text, '-')) {
        const bool plain = std::all_of(part.begin(), part.end(), [&](char c) {
            return first ? c >= 'a' && c <= 'z' : letter(c) || (c >= '0' && c <= '9');
        });
        if (!plain || part.size() < (first ? 2U : 1U) || part.size() > (first ? 3U : 8U)) return std::nullopt;
        first = false;
    }
    return text.size() <= 35 ? std::optional(std::string(text)) : std::nullopt;
}

Survey read_root(xml::Element& root, const std::string& file, Problems& problems) {
    Fields fields(root, "<rig-survey>", file, problems);
    Survey survey;
    survey.file = file;
    survey.open = take_open(root);
    if (fields.text("xmlns") != survey_namespace)
        fields.say(root.line, "the namespace is not that of a survey",
                   "write xmlns=\"" + std::string(survey_namespace) + "\"");
    survey.number = fields.token("number");
    if (const auto purpose = fields.choice("purpose", names(Purpose{}), true)) survey.purpose = *purpose;
    survey.units = fields.choice("units", names(UnitSystem{}), false);
    survey.replaces = fields.optional_token("replaces");
    survey.written_in =
        fields.value<std::string>("written-in", false, read_language, "a language tag", "en").value_or(std::string());
    fields.finish(sections);
    check_sections(root, fields);
    read_sections(root, survey, problems);
    check_ids(survey, file, problems);
    check_references(survey, file, problems);
    check_photo_measures(survey, file, problems);
    return survey;
}

}  // namespace

Reading read_survey(std::string_view text, const std::string& file) {
    auto [root, problems] = xml::read(text, file);
    if (!root) return {std::nullopt, std::move(problems)};
    if (root->name != "rig-survey")
        return {std::nullopt,
                {{{file, root->line},
                  "the root element is <" + root->name + ">, not <rig-survey>",
                  "is this a survey file?"}}};
    Survey survey = read_root(*root, file, problems);
    std::stable_sort(problems.begin(), problems.end(),
                     [](const Problem& a, const Problem& b) { return a.at.line < b.at.line; });
    if (!problems.empty()) return {std::nullopt, std::move(problems)};
    return {std::move(survey), {}};
}

}  // namespace rigdeed::survey
