#include "works/conclude.hpp"

#include <algorithm>
#include <set>

#include "assessment/calculations/working.hpp"
#include "base/text.hpp"
#include "evidence/trouble.hpp"

namespace rigdeed::works {
namespace {

using survey::Verdict;

const assessment::FittingVerdict* finding(const Answered& answered, const record::Work& work) {
    for (const assessment::FittingVerdict& one : answered.assessment.fittings)
        if (one.number == work.item && one.verdict == work.verdict) return &one;
    return nullptr;
}

/// The stay that an item renews whole, if it does.
const survey::Stay* renews(const Answered& answered, const record::Work& work) {
    const assessment::FittingVerdict* one = work.verdict == Verdict::renew ? finding(answered, work) : nullptr;
    return one != nullptr && assessment::renews_stay(*one) ? one->stay : nullptr;
}

std::string of_item(const record::Work& work) { return "item " + std::to_string(work.item); }

class Concluder {
 public:
    Concluder(const WorksDone& works, const Answered& answered, const evidence::Evidence& evidence)
        : works_(works), answered_(answered), evidence_(evidence) {}

    Conclusion run() {
        head();
        for (const record::Work& work : *answered_.record.works) line(work);
        strangers();
        for (const survey::Open& one : works_.open)
            if (tells(one))
                gap("left-open", one.line, 0,
                    one.value.empty() ? one.of + " " + one.attribute + " is still \"?\""
                                      : one.of + " " + one.attribute + "=\"" + one.value + " ?\" is not confirmed",
                    one.value.empty() ? "write it; what there is not (a certificate, a firm) take out of the file"
                                      : "take the question mark away if it is so, or write what it is");
        judge();
        std::stable_sort(conclusion_.gaps.begin(), conclusion_.gaps.end(),
                         [](const Gap& a, const Gap& b) { return a.line < b.line; });
        return std::move(conclusion_);
    }

 private:
    void gap(std::string code, int line, int item, std::string what, std::string hint) {
        conclusion_.gaps.push_back({std::move(code), line, item, std::move(what), std::move(hint)});
    }

    /// What is open in an item that is not answered yet, or belongs to work that was not done, says nothing more.
    bool tells(const survey::Open& open) const {
        const Item* in = nullptr;
        for (const Item& item : works_.items)
            if (item.line <= open.line && (in == nullptr || item.line > in->line)) in = &item;
        if (in == nullptr) return (!works_.number.empty() || open.of != "works-done") && open.attribute != "name";
        if (!in->done) return false;
        const bool undone = *in->done == Done::no || *in->done == Done::worse;
        return !undone || (open.attribute.empty() && in->words.empty());
    }

    void head() {
        if (works_.number.empty())
            gap("no-number", 1, 0, "the follow-up has no number", "write number=\"…\" in the first element");
        if (works_.number == answered_.survey.number)
            gap("no-number", 1, 0, "the follow-up has the number of the report", "give it a number of its own");
        if (works_.rigger.empty())
            gap("no-rigger", works_.rigger_line, 0, "nobody is named who did the works",
                "write <rigger name=\"…\"/>: he vouches for them");
    }

    void line(const record::Work& work) {
        Line& line = conclusion_.lines.emplace_back();
        line.asked = &work;
        line.item = works_.item(work.item);
        line.stay = renews(answered_, work);
        const std::size_t before = conclusion_.gaps.size();
        if (line.item == nullptr) {
            gap("not-answered", 0, work.item, of_item(work) + " of the works list is not answered: " + work.words,
                "add <item number=\"" + std::to_string(work.item) + "\" done=\"…\">");
        } else if (!line.item->done) {
            gap("not-answered", line.item->line, work.item, of_item(work) + ": nobody said what became of it",
                "write done=\"yes\", \"otherwise\", \"no\" or \"worse\"");
        } else {
            answer(work, line);
        }
        line.closed = line.item != nullptr && line.item->done == Done::yes && conclusion_.gaps.size() == before;
        if (!line.closed) ++conclusion_.open[static_cast<std::size_t>(work.verdict)];
    }

    void answer(const record::Work& work, const Line& line) {
        const Item& item = *line.item;
        if (!item.asks.empty() && squeezed(item.asks) != squeezed(work.words))
            gap("other-words", item.line, work.item, of_item(work) + " does not ask what the report asks",
                "in the report it is: " + work.words);
        if (*item.done != Done::yes && item.words.empty())
            gap("no-reason", item.line, work.item,
                of_item(work) + (*item.done == Done::otherwise ? ": what was done instead is not said"
                                 : *item.done == Done::worse   ? ": what was found worse is not said"
                                                               : ": why it was not done is not said"),
                "write it between the tags");
        const bool something_done = *item.done == Done::yes || *item.done == Done::otherwise;
        if (!item.on)
            gap("no-day", item.line, work.item, of_item(work) + ": the day is not said", "write on=\"YYYY-MM-DD\"");
        else if (*item.on < answered_.survey.attendance.on || *item.on > answered_.on)
            gap("other-day", item.line, work.item,
                of_item(work) + ": " + item.on->iso() + " is not between the survey, " +
                    answered_.survey.attendance.on.iso() + ", and the follow-up, " + answered_.on.iso(),
                "write the day on which it was done or looked at");
        if (something_done) photos(item);
        else if (!item.before.empty()) photo(item, item.before);
        if (something_done && line.stay != nullptr) size(item, *line.stay);
    }

    bool photo(const Item& item, const std::string& name) {
        const evidence::Photo* photo = evidence_.find(name);
        if (photo != nullptr && photo->usable()) return true;
        gap("no-photo", item.line, item.number,
            "item " + std::to_string(item.number) + ": photo " + in_quotes(name) +
                (photo == nullptr || photo->file.empty() ? " is not in the folder" : " cannot be used"),
            "put it into the folder " + in_quotes(works_.photos) + ", or name another");
        return false;
    }

    const evidence::Photo* of_the_report(const evidence::Photo& photo) const {
        for (const evidence::Photo& one : answered_.photos.photos)
            if (one.size > 0 && (one.sha256 == photo.sha256 || (one.pixels && one.pixels == photo.pixels))) return &one;
        return nullptr;
    }

    void photos(const Item& item) {
        const std::string which = "item " + std::to_string(item.number);
        if (item.before.empty() || item.after.empty())
            return gap("no-pair", item.line, item.number, which + " has no photo of before and of after",
                       "write before=\"…\" after=\"…\"");
        if (!photo(item, item.before) || !photo(item, item.after)) return;
        const evidence::Photo &before = *evidence_.find(item.before), &after = *evidence_.find(item.after);
        if (before.sha256 == after.sha256 || (before.pixels && before.pixels == after.pixels))
            gap("same-photo", item.line, item.number, which + ": before and after are the same picture",
                "name one of each");
        if (const evidence::Photo* known = of_the_report(after))
            gap("old-photo", item.line, item.number,
                which + ": the photo of after is " + in_quotes(known->name) +
                    " of the report: it shows what was before",
                "name one that was taken when the work was done");
        const auto &then = before.facts.taken, &now = after.facts.taken;
        if (then && now && seconds_since_epoch(*now) < seconds_since_epoch(*then))
            gap("exchanged", item.line, item.number, which + ": the photo of after was taken before that of before",
                "exchange them, or set the camera's clock right");
    }

    /// A stay that is renewed is named with its size, and not weaker than the one it takes the place of.
    void size(const Item& item, const survey::Stay& old) {
        const std::string which = "item " + std::to_string(item.number) + ": stay " + in_quotes(old.id);
        const auto found = std::find_if(item.renewed.begin(), item.renewed.end(),
                                        [&](const Renewed& one) { return one.stay == old.id; });
        if (found == item.renewed.end() || found->make.empty() || found->alloy.empty() || !found->diameter)
            return gap("no-size", found == item.renewed.end() ? item.line : found->line, item.number,
                       which + " is renewed without its make, alloy and diameter",
                       "write <renewed stay=\"" + old.id + "\" make=\"1x19\" alloy=\"316\" diameter=\"8 mm\"/>");
        survey::Stay fresh = old;
        fresh.make = found->make;
        fresh.alloy = found->alloy;
        fresh.diameter = *found->diameter;
        fresh.breaking_load = found->breaking_load;
        const auto now = assessment::strength_of(fresh, answered_.trade).load;
        const auto then = assessment::strength_of(old, answered_.trade).load;
        const bool same_sort = fresh.make == old.make && fresh.alloy == old.alloy;
        const bool as_thick = same_sort && fresh.diameter.quantity >= old.diameter.quantity;
        if (!found->because.empty() || ((!now || !then) && as_thick)) return;
        if (!now || !then)
            gap("unknown-strength", found->line, item.number,
                which + ": whether the new one is as strong as the old cannot be told from make, alloy and diameter",
                "write breaking-load=\"… kN\" of its certificate, or because=\"…\"");
        else if (*now < *then)
            gap("weaker", found->line, item.number,
                which + " is weaker than it was: " + fixed(now->value, 1) + " kN for " + fixed(then->value, 1) + " kN",
                "if that is right, say why: because=\"…\"");
    }

    void strangers() {
        for (const Item& item : works_.items) {
            const auto& works = *answered_.record.works;
            if (std::none_of(works.begin(), works.end(),
                             [&](const record::Work& work) { return work.item == item.number; }))
                gap("no-such-item", item.line, item.number,
                    "the works list of the report has no item " + std::to_string(item.number),
                    "take it out; what was found besides belongs into a new survey");
            for (const Renewed& one : item.renewed)
                if (answered_.survey.stay(one.stay) == nullptr)
                    gap("no-such-stay", one.line, item.number, "the report has no stay " + in_quotes(one.stay),
                        "write the id that the stay has in its survey");
        }
    }

    void judge() {
        const auto open = [&](auto wanted) {
            return std::any_of(conclusion_.lines.begin(), conclusion_.lines.end(),
                               [&](const Line& line) { return !line.closed && wanted(*line.asked); });
        };
        const bool worse = std::any_of(works_.items.begin(), works_.items.end(),
                                       [](const Item& item) { return item.done == Done::worse; });
        const std::string report(assessment::name_of(answered_.assessment.answer));
        const bool to_renew = open([](const record::Work& work) { return work.verdict == Verdict::renew; });
        const bool to_rectify = open([](const record::Work& work) { return work.verdict == Verdict::rectify; });
        const std::string after_work(assessment::name_of(assessment::Answer::after_work));
        const std::string barred(assessment::name_of(assessment::Answer::not_to_be_sailed));
        conclusion_.answer = report;
        const auto asks = [&](Verdict verdict) {  // an answer that no line of the list explains is not lifted by one
            return std::any_of(conclusion_.lines.begin(), conclusion_.lines.end(),
                               [&](const Line& line) { return line.asked->verdict == verdict; });
        };
        if (report == barred && !to_renew && asks(Verdict::renew))
            conclusion_.answer = to_rectify ? after_work : "works-done";
        if (report == after_work && !to_rectify && !to_renew && asks(Verdict::rectify))
            conclusion_.answer = "works-done";
        if (worse && conclusion_.answer != barred) conclusion_.answer = "found-worse";
        if (!conclusion_.complete()) conclusion_.answer = report;
        const bool first = std::any_of(conclusion_.lines.begin(), conclusion_.lines.end(),
                                       [](const Line& line) { return line.asked->first; });
        const bool first_open = open([](const record::Work& work) { return work.first; });
        conclusion_.do_not_climb =
            worse || (answered_.assessment.do_not_climb && (!first || first_open || !conclusion_.complete()));
    }

    const WorksDone& works_;
    const Answered& answered_;
    const evidence::Evidence& evidence_;
    Conclusion conclusion_;
};

}  // namespace

Conclusion conclude(const WorksDone& works, const Answered& answered, const evidence::Evidence& evidence) {
    return Concluder(works, answered, evidence).run();
}

WorksDone form_for(const Answered& answered) {
    WorksDone form;
    form.report_number = answered.survey.number;
    form.yacht = answered.survey.yacht.name;
    form.photos = "photos";
    for (const record::Work& work : *answered.record.works) {
        Item& item = form.items.emplace_back();
        item.number = work.item;
        item.asks = work.words;
        if (const survey::Stay* stay = renews(answered, work)) {
            Renewed& renewed = item.renewed.emplace_back();
            renewed.stay = stay->id;
            renewed.make = stay->make;
            renewed.alloy = stay->alloy;
            renewed.diameter = stay->diameter;
        }
    }
    return form;
}

std::vector<std::string> photo_names(const WorksDone& works) {
    std::vector<std::string> names;
    for (const Item& item : works.items)
        for (const std::string* name : {&item.before, &item.after})
            if (!name->empty() && std::find(names.begin(), names.end(), *name) == names.end()) names.push_back(*name);
    return names;
}

}  // namespace rigdeed::works
