#include <algorithm>
#include <map>

#include "evidence/look.hpp"
#include "marking/marking.hpp"
#include "page/page.hpp"

namespace rigdeed::marking {
namespace {

namespace fs = std::filesystem;

constexpr int small_side = 224;  // pixels along the longer side; 300 of them stay under 8 MB
constexpr int many = 300;        // photos; where there are more, they are smaller
constexpr int least_side = 96;
constexpr int copied_side = 4096;  // of a photo that browsers do not show

/// Small enough that all of them together stay within what a page may weigh.
int side_for(std::size_t photos) {
    const double share = photos > many ? static_cast<double>(many) / static_cast<double>(photos) : 1;
    return std::max(least_side, static_cast<int>(small_side * share));
}

bool is_shown(const evidence::Photo& photo) {
    const std::string end = fs::path(photo.file).extension().string();
    return end == ".jpg" || end == ".JPG" || end == ".jpeg" || end == ".JPEG";
}

}  // namespace

Made make(const survey::Survey& survey, const trade::Trade& trade, const Making& making) {
    const auto looked = evidence::look_through(survey, making.jobs, making.looking, making.store);
    const pairing::Paired paired = pairing::pair_survey(survey, looked);
    evidence::ForPrint large;
    survey::Survey copied = evidence::naming_all(survey, looked);
    copied.photos.others.clear();
    for (const evidence::Looked& one : looked) {
        if (!one.photo.usable() || is_shown(one.photo)) continue;
        copied.photos.others.push_back({0, one.photo.name, "any"});
        large.sizes[one.photo.name] = copied_side;
    }
    evidence::Evidence evidence =
        evidence::small_pictures(survey, looked, side_for(looked.size()), {making.jobs, making.scaling, making.store});
    evidence::take_scales(survey, evidence);

    const xml::Reading read = xml::read(making.text, survey.file);
    Material material{survey, making.text, *read.root, fs::path(survey.file).filename().string(), trade, {}, paired};
    Made made;
    std::map<std::string, std::string> copies;
    if (!large.sizes.empty()) {
        const auto whole = evidence::gather_evidence(copied, large, {making.jobs, {}, making.store});
        const std::string folder = making.page.stem().string() + "-photos/";
        for (const evidence::Photo& photo : whole.photos) {
            if (!photo.print.jpeg) continue;
            std::string name = photo.name;
            std::replace(name.begin(), name.end(), '/', '-');
            copies[photo.name] = folder + name + ".jpg";
            made.copies.push_back({copies[photo.name], photo.print.jpeg});
        }
    }
    const fs::path base = fs::path(survey.file).parent_path() / survey.photos.folder;
    const fs::path here = fs::weakly_canonical(fs::absolute(making.page).parent_path());
    const fs::path folder = fs::weakly_canonical(fs::absolute(base)).lexically_proximate(here);
    const auto add = [&](const std::string& name) {
        const evidence::Photo* photo = evidence.find(name);
        if (photo == nullptr || photo->file.empty()) return;
        const auto copy = copies.find(name);
        const std::string path = copy != copies.end() ? copy->second : (folder / photo->file).generic_string();
        material.pictures.push_back({name, page::address_of(path), photo});
    };
    for (const pairing::Told& told : paired.photos) add(told.photo);
    for (const evidence::Looked& one : looked)
        if (!one.photo.usable()) add(one.photo.name);
    made.unreadable = paired.unreadable;
    made.photos = material.pictures.size();
    made.html = compose(material);
    return made;
}

}  // namespace rigdeed::marking
