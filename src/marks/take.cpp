#include "marks/take.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "base/text.hpp"
#include "survey/edit.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed::marks {
namespace {

using survey::Way;
using survey::Where;

std::string value_of(const Cell& cell, const std::string& name) {
    const auto found = cell.attributes.find(name);
    return found == cell.attributes.end() ? std::string() : found->second;
}

/// "far A0012 (was A0010), words "…""
std::string change_text(const Statement& statement) {
    const Cell nothing;
    const Cell &was = statement.was ? *statement.was : nothing, &is = statement.is ? *statement.is : nothing;
    if (!statement.is) return statement.label() + ": taken away, was " + was.text();
    std::vector<std::string> parts;
    for (const std::string_view one : shape_of(statement.about).attributes) {
        const std::string name(one), before = value_of(was, name), after = value_of(is, name);
        if (before == after) continue;
        parts.push_back(name + " " + (after.empty() ? "none" : shown(after)) +
                        (before.empty() ? std::string() : " (was " + shown(before) + ")"));
    }
    if (was.words != is.words)
        parts.push_back((is.words.empty() ? "no words" : in_quotes(is.words)) +
                        (was.words.empty() ? std::string() : " (was " + in_quotes(was.words) + ")"));
    return statement.label() + ": " + (parts.empty() ? "nothing" : join(parts, ", "));
}

class Taker {
 public:
    Taker(std::string_view text, const std::string& file, const xml::Element& root)
        : file_(file), root_(root), comments_(xml::comments(text)) {}

    std::vector<survey::Edit> run(const Marks& marks, Taken& taken) {
        taken_ = &taken;
        // Looks first: signs stand in them. What goes inside a look that goes as a whole goes with it.
        for (const Statement& statement : marks.statements)
            if (statement.about == About::sign && statement.was && !statement.is)
                leaving_[{statement.fitting, *statement.pass}].push_back(*statement.was);
        for (const bool looks : {true, false})
            for (const Statement& statement : marks.statements)
                if ((statement.about == About::look) == looks) settle(statement);
        for (auto& [place, look] : new_looks_)
            add_look(*survey::element_with_id(root_, place.first), place.second, std::move(look));
        edits_.insert(edits_.end(), std::make_move_iterator(late_.begin()), std::make_move_iterator(late_.end()));
        for (const Statement& statement : marks.statements)
            if (const auto change = changes_.find(&statement); change != changes_.end())
                taken.changes.push_back(change->second);
        return std::move(edits_);
    }

 private:
    using Place = std::pair<std::string, Way>;

    void conflict(const Statement& statement, int line, const std::string& what) {
        taken_->conflicts.push_back(
            {{file_, line},
             statement.label() + ": " + what,
             "look at both and write down the right one; --part takes what nothing has overtaken"});
    }

    /// The survey says something else now than the page knew.
    void overtaken(const Statement& statement, int line, const std::optional<Cell>& now) {
        conflict(statement, line,
                 "the survey says " + (now ? now->text() : "nothing") + " by now, the page knew " +
                     (statement.was ? statement.was->text() : "nothing"));
    }

    void settle(const Statement& statement) {
        const Shape& shape = shape_of(statement.about);
        const xml::Element* parent = nullptr;
        if (shape.of_fitting) {
            parent = survey::element_with_id(root_, statement.fitting);
            if (parent == nullptr || parent->name != "fitting")
                return conflict(statement, 0, "there is no such fitting any more");
        } else {
            parent = root_.child("photos");
            if (parent == nullptr) return conflict(statement, 0, "there is no <photos>");
        }
        if (statement.about == About::sign) return settle_sign(statement, *parent);
        const xml::Element* there = find(*parent, statement, shape);
        const auto now = there != nullptr ? std::optional(cell_of(*there, shape)) : std::nullopt;
        if (now == statement.is) return said();
        if (now != statement.was) return overtaken(statement, (there != nullptr ? there : parent)->line, now);
        if (statement.about == About::look) return change_look(statement, there);
        if (!statement.is) edits_.emplace_back(survey::TakeElement{there->span.at});
        else if (there != nullptr) rewrite(*there, statement, shape);
        else add(*parent, statement, shape);
        done(statement);
    }

    void said() { ++taken_->said_already; }
    void done(const Statement& statement) { changes_.emplace(&statement, change_text(statement)); }

    static const xml::Element* find(const xml::Element& parent, const Statement& statement, const Shape& shape) {
        for (const xml::Element& child : parent.children) {
            if (child.name != shape.in_survey) continue;
            const auto pass = statement.pass ? std::optional(survey::name_of(*statement.pass)) : std::nullopt;
            if (child.get("pass") != pass) continue;
            if (!shape.name.empty() && child.get(shape.name) != statement.name) continue;
            return &child;
        }
        return nullptr;
    }

    void change_look(const Statement& statement, const xml::Element* there) {
        const Place place{statement.fitting, *statement.pass};
        if (statement.is && there != nullptr) {
            rewrite(*there, statement, shape_of(About::look));
        } else if (statement.is) {
            xml::Element look = element(statement, shape_of(About::look));
            new_looks_.emplace(place, std::move(look));
        } else {
            std::vector<Cell> leaving = leaving_[place];
            for (const xml::Element& child : there->children) {
                const auto known = std::find(leaving.begin(), leaving.end(), cell_of(child, shape_of(About::sign)));
                if (child.name != "sign") continue;
                if (known == leaving.end())
                    return conflict(statement, child.line, "a sign stands in it that the page did not know");
                leaving.erase(known);
            }
            gone_.insert(there);
            edits_.emplace_back(survey::TakeElement{there->span.at});
        }
        done(statement);
    }

    void settle_sign(const Statement& statement, const xml::Element& fitting) {
        const Shape& shape = shape_of(About::sign);
        const auto pass = survey::name_of(*statement.pass);
        const xml::Element* look = nullptr;
        for (const xml::Element& child : fitting.children)
            if (child.name == "seen" && child.get("pass") == pass) look = &child;
        const auto fresh = new_looks_.find({statement.fitting, *statement.pass});
        if (look == nullptr && fresh != new_looks_.end() && !statement.was) {
            fresh->second.children.push_back(element(statement, shape));
            return done(statement);
        }
        if (look == nullptr) {
            if (!statement.is) return said();
            return conflict(statement, fitting.line, "that pass has no look at it: there is no <seen> to put it into");
        }
        if (gone_.contains(look) && statement.is)
            return conflict(statement, look->line, "the look that it stands in is taken away");
        const xml::Element* was = statement.was ? claim(*look, *statement.was) : nullptr;
        if (was == nullptr && statement.is && claim(*look, *statement.is) != nullptr) return said();
        if (statement.was && was == nullptr) {
            std::vector<std::string> now;
            bool alike = false;
            for (const xml::Element& child : look->children) {
                if (child.name != "sign") continue;
                now.push_back(cell_of(child, shape).text());
                alike |= child.get("code") == value_of(*statement.was, "code");
            }
            if (!statement.is && !alike) return said();
            return conflict(statement, look->line,
                            "the survey says " + (now.empty() ? "no sign" : join(now, "; ")) +
                                " by now, the page knew " + statement.was->text());
        }
        if (was == nullptr)
            late_.emplace_back(survey::AddElement{Where::last_in, look->span.at, element(statement, shape)});
        else if (!statement.is) {
            if (!gone_.contains(look)) edits_.emplace_back(survey::TakeElement{was->span.at});
        } else if (statement.is->words == statement.was->words) {
            rewrite(*was, statement, shape);
        } else {
            for (const xml::Comment& comment : comments_)
                if (comment.at > was->span.at && comment.at < was->span.end)
                    return conflict(statement, was->line, "a comment stands among its words, and would be lost");
            xml::Element again = element(statement, shape);
            for (const xml::Attribute& one : was->attributes)  // what the page knows nothing of stays
                if (std::find(shape.attributes.begin(), shape.attributes.end(), one.name) == shape.attributes.end())
                    again.attributes.push_back(one);
            edits_.emplace_back(survey::AddElement{Where::before, was->span.at, std::move(again)});
            edits_.emplace_back(survey::TakeElement{was->span.at});
        }
        done(statement);
    }

    /// The first sign that says this and that no other statement has spoken of.
    const xml::Element* claim(const xml::Element& look, const Cell& cell) {
        for (const xml::Element& child : look.children)
            if (child.name == "sign" && cell_of(child, shape_of(About::sign)) == cell && claimed_.insert(&child).second)
                return &child;
        return nullptr;
    }

    void rewrite(const xml::Element& there, const Statement& statement, const Shape& shape) {
        for (const std::string_view one : shape.attributes) {
            const std::string name(one), value = value_of(*statement.is, name);
            if (value == value_of(*statement.was, name)) continue;
            if (value.empty()) edits_.emplace_back(survey::TakeAttribute{there.span.at, name});
            else edits_.emplace_back(survey::SetAttribute{there.span.at, name, value});
        }
    }

    static xml::Element element(const Statement& statement, const Shape& shape) {
        xml::Element made;
        made.name = shape.in_survey;
        const auto set = [&](std::string_view name, const std::string& value) {
            if (value.empty()) return;
            xml::Attribute attribute;
            attribute.name = name;
            attribute.value = value;
            made.attributes.push_back(std::move(attribute));
        };
        if (statement.pass && statement.about != About::sign) set("pass", survey::name_of(*statement.pass));
        if (!shape.name.empty()) set(shape.name, statement.name);
        for (const std::string_view name : shape.attributes) set(name, value_of(*statement.is, std::string(name)));
        made.text = statement.is->words;
        return made;
    }

    /// Looks stand before all else in a fitting, up before down.
    void add_look(const xml::Element& fitting, Way pass, xml::Element look) {
        if (fitting.children.empty())
            return (void)edits_.emplace_back(survey::AddElement{Where::last_in, fitting.span.at, std::move(look)});
        const xml::Element& first = fitting.children.front();
        const bool behind = pass == Way::down && first.name == "seen" && first.get("pass") == survey::name_of(Way::up);
        edits_.emplace_back(survey::AddElement{behind ? Where::after : Where::before, first.span.at, std::move(look)});
    }

    void add(const xml::Element& parent, const Statement& statement, const Shape& shape) {
        const bool before_verdict = !parent.children.empty() && parent.children.back().name == "verdict";
        late_.emplace_back(survey::AddElement{before_verdict ? Where::before : Where::last_in,
                                              before_verdict ? parent.children.back().span.at : parent.span.at,
                                              element(statement, shape)});
    }

    const std::string& file_;
    const xml::Element& root_;
    std::vector<xml::Comment> comments_;
    Taken* taken_ = nullptr;
    std::vector<survey::Edit> edits_, late_;
    std::map<Place, xml::Element> new_looks_;
    std::map<Place, std::vector<Cell>> leaving_;  ///< signs that statements take away
    std::set<const xml::Element*> claimed_, gone_;
    std::map<const Statement*, std::string> changes_;
};

}  // namespace

Taken take(const Marks& marks, std::string_view text, const std::string& file, bool part) {
    Taken taken;
    const auto reading = survey::read_survey(text, file);
    if (!reading.survey) return {std::nullopt, {}, 0, {}, reading.problems};
    if (reading.survey->number != marks.number && marks.number != "?" && !marks.number.empty()) {
        taken.problems.push_back(
            {{marks.file, 1},
             "it is of survey " + in_quotes(marks.number) + ", not of " + in_quotes(reading.survey->number),
             "take it into the survey that its page was made from"});
        return taken;
    }
    const xml::Reading read = xml::read(text, file);
    const auto edits = Taker(text, file, *read.root).run(marks, taken);
    if (!taken.conflicts.empty() && !part) return taken;
    survey::Edited edited = survey::edit(text, file, edits);
    taken.text = std::move(edited.text);
    taken.problems = std::move(edited.problems);
    return taken;
}

}  // namespace rigdeed::marks
