#include <cmath>

#include "assessment/rig.hpp"

namespace rigdeed::assessment {
namespace {

using trade::KindIs;
using trade::SignIs;

bool is_toggle(const FittingVerdict& one) { return one.stay != nullptr && one.kind->is_a(KindIs::toggle); }

bool is_end(const FittingVerdict& one) { return one.kind->is_a(KindIs::eye) || is_terminal(one); }

bool carries_sail(const survey::Stay& stay, const Rig& rig) {
    const trade::Role* role = rig.trade.role(stay.role);
    if (role != nullptr && role->sail) return true;
    return std::any_of(rig.fittings.begin(), rig.fittings.end(),
                       [&](const auto& one) { return one.stay == &stay && one.kind->is_a(KindIs::sail); });
}

/// Wires and what is swaged on them bend where nothing gives; a splice and a rod's ball give by themselves.
bool needs_toggles(const survey::Stay& stay, const Rig& rig) {
    return stay.make != "textile" && stay.make != "rod" && carries_sail(stay, rig);
}

/// The highest end of a stay, aloft.
std::optional<std::size_t> upper_end(const survey::Stay& stay, const Rig& rig) {
    std::optional<std::size_t> highest;
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& one = rig.fittings[i];
        if (one.stay != &stay || one.absent || !is_end(one) || one.fitting->at_deck()) continue;
        if (!highest || one.fitting->height.quantity > rig.fittings[*highest].fitting->height.quantity) highest = i;
    }
    return highest;
}

}  // namespace

/// The eye above a missing toggle: the terminal eye if it is listed, else the nearest terminal above it.
void eye_without_toggle(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& toggle = rig.fittings[i];
        if (!is_toggle(toggle) || !has_sign(toggle, trade::missing)) continue;
        std::optional<std::size_t> nearest;
        const auto distance = [&](std::size_t k) {
            return std::abs((rig.fittings[k].fitting->height.quantity - toggle.fitting->height.quantity).value);
        };
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            if (rig.fittings[k].stay != toggle.stay || !is_end(rig.fittings[k])) continue;
            if (!nearest || distance(k) < distance(*nearest)) nearest = k;
        }
        if (nearest) rig.speaks_of(*nearest, i);
    }
}

/// A stay that carries a sail is shaken in every plane, at both ends.
void toggle_at_both_ends(Rig& rig) {
    for (const survey::Stay& stay : rig.survey.stays) {
        if (!needs_toggles(stay, rig)) continue;
        const survey::StayEnd* top = stay.end(survey::EndAt::top);
        if (top != nullptr && top->toggle == true) continue;
        const bool has_upper = std::any_of(rig.fittings.begin(), rig.fittings.end(), [&](const FittingVerdict& one) {
            return one.stay == &stay && (is_toggle(one) || one.kind->id == "shackle") && !one.absent &&
                   !one.fitting->at_deck() && !has_sign(one, trade::missing);
        });
        const auto upper = upper_end(stay, rig);
        if (!has_upper && upper) rig.speaks_of(*upper, std::nullopt);
    }
}

/// What is bent, or cracked across its eye, and the toggle of its stay that is missing or stuck.
void cause_toggle(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& toggle = rig.fittings[i];
        if (!is_toggle(toggle) || !(has_sign(toggle, trade::missing) || has_sign(toggle, "seized"))) continue;
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            const FittingVerdict& one = rig.fittings[k];
            const bool cracked_eye = one.kind->is_a(KindIs::eye) && has_sign(one, SignIs::crack);
            if (one.stay == toggle.stay && (has_sign(one, SignIs::bent) || cracked_eye)) rig.speaks_of(k, i);
        }
    }
}

void lower_before_upper(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& upper = rig.fittings[i];
        if (upper.stay == nullptr || !is_end(upper) || !has_sign(upper, SignIs::crack)) continue;
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            const FittingVerdict& lower = rig.fittings[k];
            if (lower.stay == upper.stay && is_end(lower) &&
                lower.fitting->height.quantity < upper.fitting->height.quantity)
                rig.speaks_of(k, i);
        }
    }
}

/// A halyard that winds itself round the foil breaks the stay within, wire by wire.
void halyard_wrap(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& swivel = rig.fittings[i];
        if (swivel.stay == nullptr || !has_sign(swivel, "halyard-wrap")) continue;
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            const FittingVerdict& one = rig.fittings[k];
            if (one.stay == swivel.stay && (one.kind->is_a(KindIs::line) || one.kind->is_a(KindIs::sail)))
                rig.speaks_of(k, i);
        }
    }
}

/// A tip that slides works at the root of its spreader.
void tip_and_root(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& tip = rig.fittings[i];
        if (!tip.kind->is_a(KindIs::tip) || !(has_sign(tip, "not-seized") || has_sign(tip, "not-bisecting"))) continue;
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            const survey::Fitting &root = *rig.fittings[k].fitting, &of = *tip.fitting;
            if (rig.fittings[k].kind->is_a(KindIs::root) && root.station == of.station && root.side == of.side &&
                root.mast == of.mast)
                rig.speaks_of(k, i);
        }
    }
}

}  // namespace rigdeed::assessment
