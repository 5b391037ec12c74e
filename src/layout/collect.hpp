#pragma once

#include "layout/setter.hpp"

namespace rigdeed::layout {

/// Turns the report's blocks into slabs, in order. The list of contents is made from the headings among them.
/// Blocks beside the mast are set by `narrow`.
/// `page`: the height that a page has for them.
[[nodiscard]] Slabs collect(const report::Report& report, const Setter& setter, const Setter& narrow, Points page);

// One function a block, by file.
void collect_one(const report::Heading& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Paragraph& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Facts& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::TwoTexts& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Caution& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Step& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Fingerprint& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Table& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::PhotoRow& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::PairGrid& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Figure& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Exhibit& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Overview& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::FindingHead& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Letterhead& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::AnswerPlate& block, const Setter& setter, Slabs& slabs);
void collect_one(const report::Counts& block, const Setter& setter, Slabs& slabs);

}  // namespace rigdeed::layout
