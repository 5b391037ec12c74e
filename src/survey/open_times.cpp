#include "survey/open_times.hpp"

#include "survey/edit.hpp"
#include "survey/splices.hpp"

namespace rigdeed::survey {

TimesPutIn with_times_put_in(std::string_view text, const std::string& file) {
    TimesPutIn put_in{std::string(text), {}};
    const xml::Reading read = xml::read(text, file);
    const xml::Element* fittings = read.root ? read.root->child("fittings") : nullptr;
    if (fittings == nullptr) return put_in;
    std::vector<Edit> edits;
    for (const xml::Element& fitting : fittings->children)
        for (const xml::Element& seen : fitting.children) {
            if (seen.name != "seen" || seen.get("at").value_or("?") != "?") continue;
            edits.emplace_back(SetAttribute{seen.span.at, "at", "00:00"});
            put_in.open.emplace(fitting.get("id").value_or(""), seen.get("pass") == "down" ? Way::down : Way::up);
        }
    if (edits.empty()) return put_in;
    Problems problems;
    const std::vector<Splice> splices = Splicer(text, file, *read.root).run(edits, problems);
    if (problems.empty()) put_in.text = spliced(text, splices);
    return put_in;
}

}  // namespace rigdeed::survey
