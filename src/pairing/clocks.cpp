#include "pairing/clocks.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "pairing/places.hpp"

namespace rigdeed::pairing {
namespace {

using Offsets = std::vector<std::int64_t>;  // seconds to add to the camera's time

std::optional<std::int64_t> agreed(Offsets offsets, std::size_t least) {
    constexpr std::int64_t most_apart = 10 * 60;
    if (offsets.size() < least) return std::nullopt;
    std::sort(offsets.begin(), offsets.end());
    if (offsets.back() - offsets.front() > most_apart) return std::nullopt;
    return offsets[offsets.size() / 2];
}

/// By photos that the survey names, with the time of their look.
std::map<std::string, Offsets> by_names(const survey::Survey& survey,
                                        const std::map<std::string, const evidence::Photo*>& photos,
                                        const std::set<std::pair<std::string, survey::Way>>& open) {
    std::map<std::string, Offsets> offsets;
    for (const survey::Fitting& fitting : survey.fittings)
        for (const survey::Seen& seen : fitting.seen) {
            if (open.contains({fitting.id, seen.pass})) continue;
            for (const std::string& name : {seen.far, seen.close})
                if (const auto photo = photos.find(name); photo != photos.end())
                    offsets[photo->second->facts.camera].push_back(
                        seconds_since_epoch({survey.attendance.on, seen.at}) -
                        seconds_since_epoch(*photo->second->facts.taken));
        }
    return offsets;
}

/// By codes that two cameras took: of one place and pass, the survey's or not.
std::map<std::string, Offsets> by_codes(const survey::Survey& survey, const std::vector<evidence::Looked>& looked,
                                        const std::string& main) {
    std::map<std::string, std::int64_t> of_main;
    std::map<std::string, Offsets> offsets;
    for (const bool is_main : {true, false})
        for (const evidence::Looked& one : looked) {
            if (!one.photo.facts.taken || (one.photo.facts.camera == main) != is_main) continue;
            for (const std::string& code : one.codes) {
                const std::int64_t at = seconds_since_epoch(*one.photo.facts.taken);
                if (is_main) of_main.emplace(code, at + survey.photos.clock_of(main));
                else if (const auto there = of_main.find(code); there != of_main.end() && read_code(code))
                    offsets[one.photo.facts.camera].push_back(there->second - at);
            }
        }
    return offsets;
}

}  // namespace

std::vector<survey::CameraClock> find_clocks(const survey::Survey& survey, const std::vector<evidence::Looked>& looked,
                                             const std::set<std::pair<std::string, survey::Way>>& open) {
    constexpr std::size_t least_names = 3, least_codes = 2;
    constexpr std::int64_t of_no_account = 3 * 60, most = 24 * 3600;
    std::map<std::string, const evidence::Photo*> photos;
    std::map<std::string, std::size_t> count;
    for (const evidence::Looked& one : looked)
        if (one.photo.usable() && one.photo.facts.taken) {
            photos.emplace(one.photo.name, &one.photo);
            ++count[one.photo.facts.camera];
        }
    std::vector<survey::CameraClock> found;
    if (count.size() < 2) return found;
    const auto has_more = [](const auto& a, const auto& b) { return a.second < b.second; };
    const std::string main = std::max_element(count.begin(), count.end(), has_more)->first;
    auto names = by_names(survey, photos, open), codes = by_codes(survey, looked, main);
    for (const auto& [camera, number] : count) {
        const auto said = [&, &wanted = camera](const survey::CameraClock& one) { return one.name == wanted; };
        const auto& cameras = survey.photos.cameras;
        if (camera.empty() || camera == main || std::any_of(cameras.begin(), cameras.end(), said)) continue;
        auto offset = agreed(names[camera], least_names);
        if (!offset) offset = agreed(codes[camera], least_codes);
        if (!offset || std::abs(*offset - survey.photos.clock_of(camera)) < of_no_account || std::abs(*offset) >= most)
            continue;
        found.push_back({0, camera, static_cast<int>(*offset)});
    }
    return found;
}

}  // namespace rigdeed::pairing
