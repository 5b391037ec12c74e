#pragma once

#include "layout/setter.hpp"

namespace rigdeed::layout {

/// Turns the document's blocks into slabs, in order. The list of contents is made from the headings among them.
/// Blocks beside the mast are set by `narrow`.
/// `page`: the height that a page has for them.
[[nodiscard]] Slabs collect(const document::Document& document, const Setter& setter, const Setter& narrow,
                            Points page);

// One function a block, by file.
void collect_one(const document::Heading& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Paragraph& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Facts& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::TwoTexts& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Caution& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Step& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Fingerprint& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::SealPlate& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Table& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::PictureRow& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::PairGrid& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Illustration& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Exhibit& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Overview& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::FindingHead& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::CoverHead& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::AnswerPlate& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Counts& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::LinesToWriteOn& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::BoxKey& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::TickTable& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::PlaceCards& block, const Setter& setter, Slabs& slabs);
void collect_one(const document::Gate& block, const Setter& setter, Slabs& slabs);

}  // namespace rigdeed::layout
