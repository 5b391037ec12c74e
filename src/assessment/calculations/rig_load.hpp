#pragma once

#include "base/quantity.hpp"

/// Load of the rig from the righting moment at 30° of heel: the method of Skene's Elements of Yacht Design as given in
/// The Complete Rigger's Apprentice.
namespace rigdeed::assessment {

/// RM30 = displacement x g x GZ30, with g = 9.81 m/s².
[[nodiscard]] NewtonMetres righting_moment(Kilograms displacement, Millimetres lever);
/// The lever that such a moment would need.
[[nodiscard]] Millimetres righting_lever(NewtonMetres moment, Kilograms displacement);
/// factor x RM30 / (beam / 2): 1.5 for the load of all shrouds of one side, 2.78 for the mast's compression.
[[nodiscard]] Kilonewtons load_of_rig(NewtonMetres moment, Millimetres beam, Ratio factor);
[[nodiscard]] Kilonewtons share_of(Kilonewtons load, Percent share);
[[nodiscard]] Ratio safety(Kilonewtons strength, Kilonewtons load);

}  // namespace rigdeed::assessment
