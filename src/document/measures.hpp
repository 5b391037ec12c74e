#pragma once

#include <cstddef>

#include "base/quantity.hpp"

/// Widths that a composer must know to make what will stand in them: layout sets by these and no others.
namespace rigdeed::document::measures {

inline constexpr Points text_width{493.3};
inline constexpr Points beside_mast{476.2};  ///< of the text on pages with a mast in the margin

// An exhibit: schematic at the left, photos beside it, the place on the rig beneath them.
inline constexpr Points schematic_width{140};
inline constexpr Points place_width{124};
inline constexpr Points photo_gap{10};
inline constexpr Points finding_photo = (beside_mast - schematic_width - photo_gap * 2) * 0.5;
inline constexpr Points other_photo{66};        ///< of the pass that saw less
inline constexpr Points detail_radius{98};      ///< of the circle that the marked part is seen through, at its largest
inline constexpr Points row_detail_radius{52};  ///< where all stands in one row

/// Photos of the whole yacht, as many in a row.
inline constexpr std::size_t views_a_row = 2;
inline constexpr Points view_photo =
    (text_width - photo_gap * static_cast<double>(views_a_row - 1)) / static_cast<double>(views_a_row);
inline constexpr Points card_photo{76};  ///< of a fitting found sound

}  // namespace rigdeed::document::measures
