#pragma once

#include "drawing/shape.hpp"
#include "survey/survey.hpp"

namespace rigdeed::drawing {

/// The shape of a verdict, told apart without colour: ring, square with hatch, ring in ring, thick hexagon, solid
/// diamond; more ink is worse. `u` is its nominal radius, `number` (0: none) stands inside.
void add_verdict_shape(Drawing& drawing, survey::Verdict verdict, Point centre, Points u, int number);

/// The shape alone, 24 points square.
[[nodiscard]] Drawing verdict_alone(survey::Verdict verdict);

}  // namespace rigdeed::drawing
