#pragma once

#include <memory>
#include <string>

#include "base/json.hpp"
#include "command/command.hpp"
#include "follow_up.hpp"

/// Works files: what `check` and `issue` say about them, and the form that `start --works` writes.
namespace rigdeed::command {

/// The text of a works file; nothing if the file is something else. Throws Error if it cannot be opened.
[[nodiscard]] std::optional<std::string> works_text(const std::string& file);

/// Reads works, their photos and the report beside them; prints all problems of an invalid file and returns nothing.
/// Throws Error if the report is not there, is not as issued, or is not the one that the works answer.
[[nodiscard]] std::unique_ptr<WorksInspected> works_or_explain(const std::string& file, const std::string& text,
                                                               const InspectOptions& options, std::int64_t moment,
                                                               const Terminal& terminal);

/// What is missing, and what would be concluded; for people and for programs.
void describe(const WorksInspected& inspected, const Terminal& terminal);
void describe(const WorksInspected& inspected, JsonWriter& json);
/// Only what is missing, to stderr: why nothing was issued.
void describe_gaps(const WorksInspected& inspected, const Terminal& terminal);

/// Makes the folder with works.xml, a copy of the report, and room for photos.
void start_works(const std::string& report, const std::string& folder, const Common& common);

}  // namespace rigdeed::command
