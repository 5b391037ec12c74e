#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rigdeed::evidence {

enum class State { usable, missing, ambiguous, leads_outside, unreadable, not_a_photo };

struct StateName {
    State state;
    std::string_view name;
};
inline constexpr std::array state_names{
    StateName{State::usable, "usable"},         StateName{State::missing, "missing"},
    StateName{State::ambiguous, "ambiguous"},   StateName{State::leads_outside, "leads-outside"},
    StateName{State::unreadable, "unreadable"}, StateName{State::not_a_photo, "not-a-photo"},
};
[[nodiscard]] std::string_view name_of(State state);

/// Why a photo is not usable.
enum class Why {
    none,
    not_there,
    several,
    leads_outside,
    not_a_file,
    large_file,
    no_permission,
    cannot_read,
    empty,
    heic,
    avif,
    media,
    png,
    gif,
    riff,
    tiff,
    pdf,
    not_jpeg,
    arithmetic,
    lossless,
    bits,
    cmyk,
    large_picture,
    small_picture,
    scans,
    ends_early,
    ends_inside,
    no_marker,
    no_picture,
    no_data,
    two_pictures,
    short_frame,
    channels,
    no_size,
    undecodable,
    not_encoded,
    told_before,
};

/// A row of the table: its name in the record, the register and the wording ("photo.trouble.<name>"), and what state
/// it puts a photo in.
struct WhyRow {
    Why why;
    std::string_view name;
    State state;
};
[[nodiscard]] const std::vector<WhyRow>& why_rows();
[[nodiscard]] const WhyRow& row_of(Why why);
/// Nothing if no row has this name.
[[nodiscard]] std::optional<Why> why_named(std::string_view name);

/// In codes and numbers; worded where it is shown, in the language it is shown in.
struct Trouble {
    Why why = Why::none;
    int number = 0;                  ///< bits a channel, channels, the system's error number
    std::vector<std::string> files;  ///< that could be meant
    std::string told;                ///< in English, as records of before 0.2 tell it; empty else

    [[nodiscard]] bool any() const { return why != Why::none; }
    [[nodiscard]] State state() const { return row_of(why).state; }
    bool operator==(const Trouble&) const = default;
};

}  // namespace rigdeed::evidence
