#pragma once

#include "layout/setter.hpp"

namespace rigdeed::layout {

/// The caption stands above the picture: nothing crosses it. Returns its height.
Points set_caption(Slab& slab, const Setter& setter, Point top, const document::Picture& photo, Points width);
[[nodiscard]] Points caption_height(const Setter& setter, const document::Picture& photo, Points width);

}  // namespace rigdeed::layout
