#include "report/alike_findings.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "report/finding_drawing.hpp"
#include "report/finding_meaning.hpp"
#include "report/open_names.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {

using assessment::FittingVerdict;
using survey::Seen;
using survey::Way;

namespace {

/// The parts of the stay that the same finding speaks of.
std::string told_with_it(const Material& material, const FittingVerdict& one) {
    std::vector<std::string> names;
    for (const FittingVerdict& other : material.assessment.fittings)
        if (other.with && &material.assessment.fittings[*other.with] == &one) names.push_back(other.own_name);
    const trade::Wording& words = material.trade.wording;
    return names.empty() ? std::string() : "; " + words("finding.with", {{"others", words.listed(names)}});
}

}  // namespace

FindingHead finding_head(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    return {VerdictMark{one.verdict, one.number},
            capitalised(one.name),
            verdict_word(one.verdict, words),
            finding_sentence(material, one) + told_with_it(material, one),
            one.bars_climbing ? words("finding.do-not-climb") : std::string(),
            finding_anchor(one.number),
            words("finding.work", {{"n", std::to_string(one.number)}}),
            work_anchor(one.number),
            one.fitting->height.quantity.value / 1000};
}

bool tells_nothing_of_its_own(const Material& material, const FittingVerdict& one) {
    const auto by_limit = [&](const trade::JudgedSign& sign) { return is_limit(*sign.rule, material.trade); };
    const auto on_photo = [](const survey::Measured& measured) { return !measured.from.empty(); };
    return std::all_of(one.signs.begin(), one.signs.end(), by_limit) && !one.absent && !one.fitting->verdict &&
           std::none_of(one.fitting->measured.begin(), one.fitting->measured.end(), on_photo) && !one.bars_climbing &&
           one.verdict <= Verdict::watch;
}

namespace {

/// "up 12:20, down 13:04: no sign seen"
std::string passes_line(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    std::vector<std::string> times;
    for (const Seen& seen : one.fitting->seen)
        times.push_back(words(seen.pass == Way::up ? "finding.up" : "finding.down") + " " + seen.at.hh_mm());
    return one.unseen_because.empty() ? said(words, join(times, ", "), words("finding.no-sign")) : join(times, ", ");
}

bool alike(const AlikeFindings::Group& group, const TwoTexts& meaning, const std::string& source, Verdict verdict) {
    return group.members.front()->verdict == verdict && group.meaning.left == meaning.left &&
           group.meaning.right == meaning.right && group.source == source;
}

/// A head each, then the photos of all, then what all mean.
std::vector<Block> together(const Material& material, const AlikeFindings::Group& group, bool close) {
    const trade::Wording& words = material.trade.wording;
    std::vector<Block> blocks;
    PictureRow row;
    row.columns = close ? 6 : 4;
    for (const FittingVerdict* one : group.members) {
        FindingHead head = finding_head(material, *one);
        head.small = one->verdict <= Verdict::watch;
        head.place = join(place_lines(material, *one), ", ");
        for (const survey::Measured& value : one->fitting->measured)
            head.place += " · " + measured_words(value, material.trade);
        if (!one->fitting->seen.empty()) head.place += " · " + passes_line(material, *one);
        add(blocks, std::move(head));
        for (const Seen& seen : one->fitting->seen)
            for (const auto& [name, role] : {std::pair(seen.far, "photo.far"), std::pair(seen.close, "photo.close")}) {
                if (name.empty()) continue;
                Picture photo = photo_block(material, name, words(role), one->name);
                photo.second = one->name;
                if (name == seen.far) photo.ring = seen.on_far;
                row.photos.push_back(std::move(photo));
            }
    }
    if (!row.photos.empty()) add(blocks, std::move(row));
    std::vector<std::string> stays, fittings;
    for (const FittingVerdict* one : group.members) {
        if (one->stay != nullptr) add_once(stays, trade::stay_name(*one->stay, material.trade));
        fittings.push_back(one->name);
    }
    const auto whole = [&](const std::string& text) { return names_filled(text, stays, fittings, words); };
    add(blocks, TwoTexts{group.meaning.left_title, whole(group.meaning.left), group.meaning.right_title,
                         whole(group.meaning.right), close});
    if (!group.source.empty()) add(blocks, Paragraph{whole(group.source), close ? Tone::note : Tone::quiet});
    return blocks;
}

}  // namespace

bool AlikeFindings::take(const FittingVerdict& one, std::size_t piece) {
    constexpr std::size_t most = 4, most_unseen = 9;  // of a group, with their photos on one page
    const auto open = [&](std::string text) { return names_open(std::move(text), one, material_.trade); };
    TwoTexts meaning = finding_meaning(material_, one);
    meaning.left = open(std::move(meaning.left)), meaning.right = open(std::move(meaning.right));
    const std::string source = open(finding_source(material_, one));
    const std::size_t room = one.fitting->seen.empty() ? most_unseen : most;
    const auto known = std::find_if(groups_.begin(), groups_.end(), [&](const Group& group) {
        return alike(group, meaning, source, one.verdict) && group.members.size() < room;
    });
    if (known != groups_.end()) {
        known->members.push_back(&one);
        return false;
    }
    groups_.push_back({{&one}, meaning, source, piece});
    return true;
}

void AlikeFindings::write(Stack& stack) const {
    for (const Group& group : groups_)
        stack.pieces[group.piece] = {{together(material_, group, false), together(material_, group, true)}};
}

}  // namespace rigdeed::report
