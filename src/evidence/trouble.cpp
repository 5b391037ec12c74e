#include "evidence/trouble.hpp"

#include <algorithm>

#include "base/error.hpp"

namespace rigdeed::evidence {

const std::vector<WhyRow>& why_rows() {
    static const std::vector<WhyRow> rows{
        {Why::none, "none", State::usable},
        {Why::not_there, "not-there", State::missing},
        {Why::several, "several", State::ambiguous},
        {Why::leads_outside, "leads-outside", State::leads_outside},
        {Why::not_a_file, "not-a-file", State::not_a_photo},
        {Why::large_file, "large-file", State::not_a_photo},
        {Why::no_permission, "no-permission", State::unreadable},
        {Why::cannot_read, "cannot-read", State::unreadable},
        {Why::empty, "empty", State::not_a_photo},
        {Why::heic, "heic", State::not_a_photo},
        {Why::avif, "avif", State::not_a_photo},
        {Why::media, "media", State::not_a_photo},
        {Why::png, "png", State::not_a_photo},
        {Why::gif, "gif", State::not_a_photo},
        {Why::riff, "riff", State::not_a_photo},
        {Why::tiff, "tiff", State::not_a_photo},
        {Why::pdf, "pdf", State::not_a_photo},
        {Why::not_jpeg, "not-jpeg", State::not_a_photo},
        {Why::arithmetic, "arithmetic", State::not_a_photo},
        {Why::lossless, "lossless", State::not_a_photo},
        {Why::bits, "bits", State::not_a_photo},
        {Why::cmyk, "cmyk", State::not_a_photo},
        {Why::large_picture, "large-picture", State::not_a_photo},
        {Why::small_picture, "small-picture", State::not_a_photo},
        {Why::scans, "scans", State::not_a_photo},
        {Why::ends_early, "ends-early", State::unreadable},
        {Why::ends_inside, "ends-inside", State::unreadable},
        {Why::no_marker, "no-marker", State::unreadable},
        {Why::no_picture, "no-picture", State::unreadable},
        {Why::no_data, "no-data", State::unreadable},
        {Why::two_pictures, "two-pictures", State::unreadable},
        {Why::short_frame, "short-frame", State::unreadable},
        {Why::channels, "channels", State::unreadable},
        {Why::no_size, "no-size", State::unreadable},
        {Why::undecodable, "undecodable", State::unreadable},
        {Why::not_encoded, "not-encoded", State::unreadable},
        {Why::told_before, "told-before", State::unreadable},
    };
    return rows;
}

const WhyRow& row_of(Why why) {
    const auto& rows = why_rows();
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const WhyRow& known) { return known.why == why; });
    if (row == rows.end()) throw Error("a trouble of a photo without a row", {}, {}, ExitCode::bug);
    return *row;
}

std::optional<Why> why_named(std::string_view name) {
    for (const WhyRow& row : why_rows())
        if (row.name == name) return row.why;
    return std::nullopt;
}

std::string_view name_of(State state) {
    for (const StateName& row : state_names)
        if (row.state == state) return row.name;
    return {};
}

}  // namespace rigdeed::evidence
