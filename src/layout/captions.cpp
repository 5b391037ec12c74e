#include "layout/captions.hpp"

#include <string>
#include <vector>

namespace rigdeed::layout {

Points set_caption(Slab& slab, const Setter& setter, Point top, const document::Picture& photo, Points width) {
    const Tagged scope = setter.tagged("Caption");
    const Points baseline = top.y + baseline_in(look::caption);
    Points role;
    if (!photo.role.empty()) role = setter.line(slab, {top.x, baseline}, photo.role, look::caption_bold) + 5_pt;
    // A name that does not fit behind the role stands under it, in one piece.
    const std::string word = photo.caption.substr(0, photo.caption.find(' '));
    const bool beneath = role > 0_pt && setter.measure(word, look::caption) > width - role;
    const auto first = beneath ? std::vector<std::string>{""} : setter.wrap(photo.caption, look::caption, width - role);
    if (!first.empty() && !first.front().empty())
        setter.line(slab, {top.x + role, baseline}, first.front(), look::caption);
    Points y = look::caption.leading;
    if (first.size() > 1 || (beneath && !photo.caption.empty()))  // below the role there is the whole width
        y += setter.text(slab, {top.x, top.y + y}, photo.caption.substr(first.front().size()), look::caption, width);
    if (!photo.second.empty())
        y += setter.text(slab, {top.x, top.y + y}, photo.second,
                         {look::caption.face, look::caption.size, look::caption.leading, drawing::black_70}, width);
    return y;
}

Points caption_height(const Setter& setter, const document::Picture& photo, Points width) {
    Slab trial;
    return set_caption(trial, setter, {}, photo, width);
}

}  // namespace rigdeed::layout
