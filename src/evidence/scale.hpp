#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/bytes.hpp"
#include "evidence/evidence.hpp"
#include "evidence/upright.hpp"

namespace rigdeed::evidence {

struct Scaled {
    PrintCopy copy;   ///< empty if `long_side` was 0
    Trouble trouble;  ///< why it could not be decoded
};

/// How many pixels the longer side of a copy gets, of a photo with `longer`, where `wanted` are asked for.
[[nodiscard]] int printed_side(int longer, int wanted);

/// Decodes the whole picture at the smallest n/8 of its size that still has `long_side` pixels along its longer side,
/// shrinks it to just so many, turns it upright and encodes it anew. With `long_side` 0 it only finds out whether it
/// can be decoded. What the decoder would only warn of is a refusal. With a colour profile the copy is turned into
/// sRGB.
[[nodiscard]] Scaled scale_for_print(const Bytes& jpeg, int orientation, int long_side, const Bytes& profile = {});
/// The same for several sides, decoded once where one n/8 does; as many as there are sides.
[[nodiscard]] std::vector<Scaled> scale_for_print(const Bytes& jpeg, int orientation, const std::vector<int>& sides,
                                                  const Bytes& profile);

/// Encodes RGB pixels; throws Error (code bug) if they cannot be.
[[nodiscard]] PrintCopy encode_rgb(Raster raster);

/// What makes copies, with its versions: "libjpeg-turbo 2.1.5, Little CMS 2.14".
[[nodiscard]] std::string picture_library();

/// Its brightness alone, not turned, with at least `wanted` pixels along the longer side if it has them; nothing if it
/// cannot be decoded.
[[nodiscard]] std::optional<Raster> decode_grey(const Bytes& jpeg, int wanted);

/// Two copies of one picture, made by different versions: same size, no pixel's brightness more than 32 of 255 apart,
/// 1.5 on average. False also if either cannot be decoded.
[[nodiscard]] bool are_alike(const Bytes& jpeg, const Bytes& other);

/// Red, green and blue of a whole picture, in its own colours; nothing if it cannot be decoded.
[[nodiscard]] std::optional<Raster> decode_rgb(const Bytes& jpeg);

/// Room for red, green and blue.
[[nodiscard]] Raster rgb_raster(int width, int height);

struct Square {
    Raster piece;
    survey::Mark shown;  ///< the mark, moved and made smaller where it reached beyond the picture
};
/// The square round a mark, which is in fractions of the picture's width.
[[nodiscard]] Square cut_square(const Raster& raster, const survey::Mark& mark);

struct Cut {
    PrintCopy copy;
    survey::Mark shown;  ///< the mark, moved and made smaller where it reached beyond the photo
    Trouble trouble;
};

/// The square round a mark, upright, from the original pixels; scaled down only where it has more of them than
/// `wanted` across. `mark` is in fractions of the upright photo's width.
[[nodiscard]] Cut cut_for_print(const Bytes& jpeg, int orientation, const survey::Mark& mark, int wanted,
                                const Bytes& profile = {});

}  // namespace rigdeed::evidence
