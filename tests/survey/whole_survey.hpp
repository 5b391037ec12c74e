#pragma once

#include <set>
#include <string>

#include "evidence/evidence.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// A rig of a plan as a surveyor leaves it: everything filled in, looked at twice and photographed.
namespace rigdeed::sample {

/// What a surveyor adds to a new survey: his names, no "?" left, both looks and a pair of photos each.
inline void fill_in(survey::Survey& survey) {
    survey.open.clear();
    survey.surveyor.name = "Ada Sorrel";
    survey.client.name = "Ben Aster";
    survey.yacht.name = "Plover";
    survey.attendance.place = "Inner Basin";
    int up = 6 * 3600, down = 23 * 3600 + 55 * 60;
    for (survey::Fitting& fitting : survey.fittings) {
        up += 120;
        down -= 60;
        fitting.seen.push_back({0, survey::Way::up, {up}, "F-" + fitting.station, "C-" + fitting.id, {}, {}});
        fitting.seen.push_back({0, survey::Way::down, {down}, "", "", {}, {}});
    }
}

/// Photos as a good camera takes them, at the times that the survey says.
inline evidence::Evidence photos_of(const survey::Survey& survey) {
    evidence::Evidence all;
    unsigned serial = 0;
    std::set<std::string> known;
    const auto add = [&](const std::string& name, TimeOfDay at, bool close) {
        if (name.empty() || !known.insert(name).second) return;
        evidence::Photo photo;
        photo.name = name;
        photo.file = name + ".jpg";
        photo.refuse({});
        photo.size = 1;
        ++serial;
        for (Digest* digest : {&photo.sha256, &photo.pixels.emplace()}) {
            digest->bytes[0] = static_cast<unsigned char>(serial & 255);
            digest->bytes[1] = static_cast<unsigned char>(serial >> 8);
        }
        photo.width = 4000;
        photo.height = 3000;
        photo.facts.taken = LocalTime{survey.attendance.on, {at.seconds + (close ? 0 : -20)}};
        photo.facts.flash = evidence::Flash{0x19};
        photo.facts.focal_35mm = 26;
        photo.facts.distance = Millimetres{close ? 90.0 : 2500.0};
        photo.facts.camera = "Testcam One";
        all.add(photo);
    };
    for (const survey::OtherPhoto& other : survey.photos.others) add(other.name, {7 * 3600}, false);
    for (const survey::Fitting& fitting : survey.fittings)
        for (const survey::Seen& seen : fitting.seen) {
            add(seen.far, seen.at, false);
            add(seen.close, seen.at, true);
        }
    return all;
}

}  // namespace rigdeed::sample
