#pragma once

#include "base/xml.hpp"

namespace rigdeed::trade {

/// What a kind, role or material in a template of the user's own does not say of itself, though ours of the same id
/// does, stays true of it: what it is, where it stands or runs. So does what a sign of the same code is; of a kind
/// that is new, as on our kinds that are the same (a terminal). Rules and calculations go on.
void inherit(xml::Element& root);

}  // namespace rigdeed::trade
