#include "years/chain.hpp"

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "survey/survey.hpp"
#include "years/compare.hpp"

namespace rigdeed::years {
namespace {

bool one_yacht(const Paper& a, const Paper& b) {
    survey::Survey one, other;
    one.yacht.name = a.yacht, one.yacht.hin = a.hin;
    other.yacht.name = b.yacht, other.yacht.hin = b.hin;
    return of_one_yacht(one, other);
}

std::string called(const Paper& paper) {
    return (paper.follow_up ? "works " : "survey ") + shown(paper.number) + " (" + shown(paper.file) + ")";
}

class Linker {
 public:
    explicit Linker(Chain& chain) : chain_(chain) {
        for (std::size_t i = 0; i < chain.papers.size(); ++i) by_digest_.emplace(chain.papers[i].sha256, i);
        for (const Paper& paper : chain.papers)
            if (paper.replaces) replaced_by_[paper.replaces->sha256].push_back(&paper);
    }

    void run() {
        for (const Paper& paper : chain_.papers) links(paper);
        for (const auto& [digest, papers] : replaced_by_)
            if (papers.size() > 1) {
                std::vector<std::string> names;
                for (const Paper* one : papers) names.push_back(called(*one));
                remark("two papers replace one, survey " + shown(papers.front()->replaces->number) + ": " +
                       join(names, ", "));
            }
        for (std::size_t i = 0; i < chain_.papers.size(); ++i)
            if (!chain_.papers[i].follow_up && !replaced_by_.contains(chain_.papers[i].sha256)) chain_.last = i;
        if (chain_.last) open();
    }

 private:
    void remark(std::string text) { chain_.remarks.push_back(std::move(text)); }

    const Paper* find(const Digest& sha256) const {
        const auto found = by_digest_.find(sha256);
        return found == by_digest_.end() ? nullptr : &chain_.papers[found->second];
    }

    void links(const Paper& paper) {
        for (const record::Earlier& earlier : paper.since) {
            const Paper* found = find(earlier.sha256);
            if (found == nullptr)
                remark(called(paper) + (paper.follow_up ? " answers" : " compares with") + " survey " +
                       shown(earlier.number) + " of " + earlier.issued.iso() +
                       ", which is not here: a file of that SHA-256 is missing, or was changed");
            const auto newer = replaced_by_.find(earlier.sha256);
            if (newer != replaced_by_.end() && newer->second.front()->sealed_at < paper.sealed_at)
                remark(called(paper) + " rests on survey " + shown(earlier.number) + ", which " +
                       called(*newer->second.front()) + " had replaced");
        }
        if (paper.replaces && find(paper.replaces->sha256) == nullptr)
            remark(called(paper) + " replaces survey " + shown(paper.replaces->number) + ", which is not here");
        for (const Paper& other : chain_.papers)
            if (&other < &paper && other.number == paper.number && other.sha256 != paper.sha256)
                remark("two papers have the number " + shown(paper.number) + ": " + shown(other.file) + ", " +
                       shown(paper.file));
    }

    /// An item is closed if any follow-up of the report closed it.
    void open() {
        const Paper& report = chain_.papers[*chain_.last];
        chain_.open = report.works;
        for (const Paper& paper : chain_.papers) {
            if (!paper.follow_up || paper.since.empty() || paper.since.front().sha256 != report.sha256) continue;
            std::erase_if(chain_.open, [&](const record::Work& work) {
                return std::none_of(paper.works.begin(), paper.works.end(),
                                    [&](const record::Work& left) { return left.item == work.item; });
            });
        }
    }

    Chain& chain_;
    std::map<Digest, std::size_t> by_digest_;
    std::map<Digest, std::vector<const Paper*>> replaced_by_;
};

}  // namespace

std::vector<Chain> chains(std::vector<Paper> papers) {
    std::stable_sort(papers.begin(), papers.end(), [](const Paper& a, const Paper& b) {
        return std::pair(a.sealed_at, a.on) < std::pair(b.sealed_at, b.on);
    });
    std::vector<Chain> all;
    for (Paper& paper : papers) {
        const auto known = std::find_if(all.begin(), all.end(),
                                        [&](const Chain& chain) { return one_yacht(chain.papers.front(), paper); });
        Chain& chain = known == all.end() ? all.emplace_back() : *known;
        if (chain.papers.empty()) chain.yacht = paper.yacht, chain.hin = paper.hin;
        chain.papers.push_back(std::move(paper));
    }
    for (Chain& chain : all) Linker(chain).run();
    return all;
}

}  // namespace rigdeed::years
