#pragma once

#include <string>

#include "base/json.hpp"
#include "command/command.hpp"
#include "pipeline.hpp"

/// What `check` and `issue` say about a survey.
namespace rigdeed::command {

/// Gaps, remarks and findings, grouped by fitting, for people.
void describe(const Inspected& inspected, const trade::Trade& trade, const Terminal& terminal);
/// The same for programs.
void describe(const Inspected& inspected, const trade::Trade& trade, JsonWriter& json);
/// Every calculation, and what is missing for them: two fields of the survey's object.
void describe_calculations(const Inspected& inspected, const trade::Trade& trade, JsonWriter& json);
/// How many there are, and what is out of sense.
void describe_calculations(const Inspected& inspected, const Terminal& terminal);
/// Only the gaps, to stderr: why nothing was issued.
void describe_gaps(const Inspected& inspected, const Terminal& terminal);

/// "do not climb: …" and why; empty if nothing bars climbing.
[[nodiscard]] std::string climbing_bar(const Inspected& inspected, const trade::Trade& trade);

/// Reads a survey; prints all problems of an invalid one and returns nothing.
[[nodiscard]] std::unique_ptr<Inspected> inspect_or_explain(const std::string& file, const trade::Trade& trade,
                                                            const InspectOptions& options, const Terminal& terminal);

}  // namespace rigdeed::command
