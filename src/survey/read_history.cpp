#include "survey/read_parts.hpp"

#include "base/text.hpp"

namespace rigdeed::survey {
namespace {

constexpr std::size_t most_entries = 500;  // of a kind

bool is_sha256(std::string_view text) {
    return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

PartDate day_of(Fields& fields) {
    return fields.value<PartDate>("on", true, read_part_date, "a date that exists", "2022-05").value_or(PartDate{});
}

PastSurvey read_past(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<history>, <survey>", file, problems);
    PastSurvey past;
    past.line = element.line;
    past.on = day_of(fields);
    past.by = fields.optional_text("by");
    past.number = fields.optional_token("number");
    past.left = fields.optional_text("left", 500);
    past.sha256 = fields.optional_text("sha256", 64);
    if (!past.sha256.empty() && !is_sha256(past.sha256))
        fields.say(element.line, "sha256 " + in_quotes(past.sha256) + " is not a SHA-256",
                   "write the 64 hex digits of `sha256sum`, or leave it out");
    fields.finish();
    return past;
}

Repair read_repair(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<history>, <repair>", file, problems);
    Repair repair;
    repair.line = element.line;
    repair.on = day_of(fields);
    repair.done = fields.text("done", 500);
    repair.by = fields.optional_text("by");
    fields.finish();
    return repair;
}

LoggedTension read_logged(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<history>, <tension>", file, problems);
    LoggedTension logged;
    logged.line = element.line;
    logged.on = day_of(fields);
    logged.stay = fields.token("stay");
    if (auto force = fields.quantity<Kilonewtons>("value", Measure::force, {0.01, 1000}, true)) logged.tension = *force;
    logged.with = fields.optional_text("with");
    fields.finish();
    return logged;
}

}  // namespace

History read_history(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<history>", file, problems);
    History history;
    history.line = element.line;
    history.sailed = fields.quantity<NauticalMiles>("sailed", Measure::distance, {0, 1000000}, false);
    history.statement = fields.optional_text("statement", 500);
    fields.finish({"survey", "repair", "tension"});
    if (element.children.size() > most_entries) {
        fields.say(element.line,
                   "it holds " + std::to_string(element.children.size()) + " entries; " + std::to_string(most_entries) +
                       " are the most",
                   "keep those of this rig");
        return history;
    }
    for (const xml::Element& child : element.children) {
        if (child.name == "survey") history.surveys.push_back(read_past(child, file, problems));
        if (child.name == "repair") history.repairs.push_back(read_repair(child, file, problems));
        if (child.name == "tension") history.tensions.push_back(read_logged(child, file, problems));
    }
    return history;
}

}  // namespace rigdeed::survey
