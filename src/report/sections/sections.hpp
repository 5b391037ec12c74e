#pragma once

#include <vector>

#include "document/measures.hpp"
#include "report/compose.hpp"

/// One function a section, each in the file of its name; compose.cpp puts them in order, names and numbers them.
namespace rigdeed::report {

using namespace document;  // sections are made of blocks

using Blocks = std::vector<Block>;

void cover(const Material& material, Blocks& blocks);
void contents(const Material& material, Blocks& blocks);
void gaps(const Material& material, Blocks& blocks);
void insurer(const Material& material, Blocks& blocks);
void works_list(const Material& material, Blocks& blocks);
/// Against the reports before this one; nothing where it is compared with none.
void changes(const Material& material, Blocks& blocks);
void scope_and_limits(const Material& material, Blocks& blocks);
void boat_and_rig(const Material& material, Blocks& blocks);
void findings(const Material& material, Blocks& blocks);
void sound_fittings(const Material& material, Blocks& blocks);
void calculations(const Material& material, Blocks& blocks);
void remarks_and_register(const Material& material, Blocks& blocks);
void glossary(const Material& material, Blocks& blocks);

/// What is told of the rig from before the attendance; in the chapter of boat and rig.
void history(const Material& material, Blocks& blocks);

/// That rules or words of the surveyor's own were used, and what comes off milder by them: on the cover in short, in
/// the chapter of scope and limits in full. Nothing where there are none.
void own_rules_first(const Material& material, Blocks& blocks);
void own_rules_in_full(const Material& material, Blocks& blocks);
void how_to_check(const Material& material, Blocks& blocks);

template <class T>
void add(Blocks& blocks, T block) {
    blocks.push_back(Block{std::move(block)});
}

/// What was found wanting about the photos; above their register.
void evidence_remarks(const Material& material, Blocks& blocks);

/// "far A0130, 13:03, flash on" and the like.
[[nodiscard]] Picture photo_block(const Material& material, const std::string& name, const std::string& role,
                                  const std::string& fitting);
[[nodiscard]] std::string flash_words(const Material& material, const evidence::Photo& photo);
/// "1×19 strand, stainless steel 316, 8 mm"
[[nodiscard]] std::string stay_words(const survey::Stay& stay, const trade::Trade& trade);
/// "thread engaged 14 mm"
[[nodiscard]] std::string measured_words(const survey::Measured& measured, const trade::Trade& trade);
/// By which photo and scale, and how far it may be off; empty for what was measured on board.
[[nodiscard]] std::string how_measured(const survey::Measured& measured, const Material& material);
/// What the rig's plan is called: "ketch"
[[nodiscard]] std::string rig_plan(const Material& material);
/// Why a photo is not printed.
[[nodiscard]] std::string unusable_words(const evidence::Photo& photo, const trade::Wording& words);
/// "what: words", with the blanks that the language sets there.
[[nodiscard]] std::string said(const trade::Wording& words, const std::string& of, const std::string& what);
/// What a gap is about, by its name.
[[nodiscard]] std::string gap_name(const Material& material, const completeness::Note& gap);
[[nodiscard]] std::string finding_anchor(int number);
/// Of the rows of what was found sound.
inline const std::string sound_anchor = "sound-row";
/// Of its line in the works list.
[[nodiscard]] std::string work_anchor(int number);
/// Side and station in a line, and beneath it the height: "port, at the deck", "1.20 m above the waterline".
[[nodiscard]] std::vector<std::string> place_lines(const Material& material, const assessment::FittingVerdict& one);
/// A place on a fitting in the report's words where its drawings name it; else as the surveyor wrote it.
[[nodiscard]] std::string where_words(const trade::Wording& words, const trade::Kind& kind, const std::string& where);
/// "broken wire (mouth, wires 4 and 5, 12 mm)"
[[nodiscard]] std::string sign_words(const trade::Wording& words, const trade::Kind& kind, const std::string& name,
                                     const survey::Sign& sign);
/// One text of them, each sentence once; a sentence that another begins with is left out.
[[nodiscard]] std::string said_once(const std::vector<std::string>& texts);
[[nodiscard]] std::string verdict_word(Verdict verdict, const trade::Wording& words);
/// Whether nobody saw it, whatever its age or its stay make of it.
[[nodiscard]] bool was_not_seen(const assessment::FittingVerdict& one);
/// "85 fittings: 78 seen twice, 1 once, 6 not": each counted once.
[[nodiscard]] std::string told_seen(const Material& material);
/// The plate of the cover.
[[nodiscard]] document::AnswerPlate answer_plate(const Material& material);
/// What is wrong, in one sentence: the surveyor's words, or the signs' names, or why it was not seen.
[[nodiscard]] std::string finding_sentence(const Material& material, const assessment::FittingVerdict& one);
/// With {stay} and {fitting} filled in.
[[nodiscard]] std::string filled_rule(const std::string& pattern, const assessment::FittingVerdict& one,
                                      const trade::Trade& trade);
/// The same for a rule over several fittings: {other}, {item} and {date}, too.
[[nodiscard]] std::string filled_rule(const std::string& pattern, const assessment::FittingVerdict& one,
                                      const assessment::Consequence& consequence, const Material& material);

}  // namespace rigdeed::report
