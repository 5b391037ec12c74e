#include "evidence/find_files.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/text.hpp"

namespace rigdeed::evidence {
namespace {

constexpr std::array<std::string_view, 21> photo_endings{"jpg", "jpeg", "jpe",  "heic", "heif", "avif", "png",
                                                         "tif", "tiff", "webp", "bmp",  "gif",  "cr2",  "cr3",
                                                         "nef", "arw",  "dng",  "raf",  "orf",  "rw2",  "pef"};

std::string ending(const std::string& file) {
    const auto dot = file.rfind('.');
    const auto slash = file.rfind('/');
    if (dot == std::string::npos || (slash != std::string::npos && dot < slash)) return {};
    return lower(file.substr(dot + 1));
}

std::string stem(const std::string& file) {
    const std::string end = ending(file);
    return end.empty() ? file : file.substr(0, file.size() - end.size() - 1);
}

bool is_jpeg(const std::string& file) {
    const std::string end = ending(file);
    return end == "jpg" || end == "jpeg" || end == "jpe";
}

bool is_photo(const std::string& file) {
    return std::find(photo_endings.begin(), photo_endings.end(), ending(file)) != photo_endings.end();
}

/// Which files a name may mean, asked for many names.
class FilesByName {
 public:
    explicit FilesByName(const std::vector<std::string>& files) {
        for (const std::string& file : files) {
            whole_.insert(file);
            const std::string name = composed(file);
            by_stem_[stem(name)].push_back(file);
            folded_[lower(stem(name))].push_back(file);
            if (lower(stem(name)) != lower(name)) folded_[lower(name)].push_back(file);
            if (is_photo(file)) last_[lower(stem(name.substr(name.rfind('/') + 1)))].push_back(file);
        }
    }

    /// The file itself, else those of that stem, JPEGs before anything else, else whatever the case of its letters.
    [[nodiscard]] std::vector<std::string> candidates(const std::string& name) const {
        if (whole_.contains(name)) return {name};
        const std::string plain = composed(name);
        for (const auto& [named, wanted] : {std::pair(&by_stem_, plain), std::pair(&folded_, lower(plain))}) {
            const auto found = named->find(wanted);
            if (found == named->end()) continue;
            for (const auto fits : {is_jpeg, is_photo}) {
                std::vector<std::string> fitting;
                std::copy_if(found->second.begin(), found->second.end(), std::back_inserter(fitting), fits);
                if (!fitting.empty()) return fitting;
            }
        }
        return {};
    }

    /// Files elsewhere in the folder that have this name, at most three.
    [[nodiscard]] std::vector<std::string> elsewhere(const std::string& name) const {
        const std::string plain = composed(name);
        const auto found = last_.find(lower(stem(plain.substr(plain.rfind('/') + 1))));
        if (found == last_.end()) return {};
        return {found->second.begin(),
                found->second.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(3, found->second.size()))};
    }

 private:
    using Names = std::map<std::string, std::vector<std::string>>;
    std::set<std::string> whole_;
    Names by_stem_;
    Names folded_;
    Names last_;  ///< by the last part of their path
};

}  // namespace

Evidence find_files(const std::vector<std::string>& names, const std::vector<std::string>& files) {
    Evidence evidence;
    std::set<std::string> used;
    const FilesByName by_name(files);
    for (const std::string& name : names) {
        Photo photo;
        photo.name = name;
        const auto found = by_name.candidates(name);
        if (found.size() == 1) {
            photo.file = found.front();
            used.insert(lower(stem(photo.file)));
        } else if (!found.empty()) {
            photo.refuse({Why::several, 0, found, {}});
            for (const std::string& one : found) used.insert(lower(stem(one)));
        }
        if (found.empty()) photo.trouble.files = by_name.elsewhere(name);
        evidence.add(std::move(photo));
    }
    std::set<std::string> taken;
    for (const Photo& photo : evidence.photos) taken.insert(photo.file);
    for (const std::string& file : files) {
        if (!is_photo(file) || taken.contains(file)) continue;
        const bool beside_its_jpeg = !is_jpeg(file) && used.contains(lower(stem(file)));
        if (!beside_its_jpeg) evidence.unused.push_back(file);
    }
    return evidence;
}

}  // namespace rigdeed::evidence
