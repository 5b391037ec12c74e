#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/bytes.hpp"
#include "base/problem.hpp"
#include "evidence/evidence.hpp"
#include "pairing/survey_pairing.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// The marking page: pictures to look through, pair, circle and measure on; what it saves, `marks` takes in.
namespace rigdeed::marking {

/// A photo of the folder as the page shows it.
struct Picture {
    std::string name;     ///< as a survey calls it
    std::string address;  ///< of the whole picture, from where the page lies
    const evidence::Photo* photo = nullptr;
};

struct Material {
    const survey::Survey& survey;
    std::string_view text;  ///< of the survey file
    const xml::Element& root;
    std::string file;  ///< its name without folders
    const trade::Trade& trade;
    std::vector<Picture> pictures;  ///< in the order they were taken
    const pairing::Paired& paired;
};

/// The page as HTML.
[[nodiscard]] std::string compose(const Material& material);

/// A file beside the page: a picture that no browser shows as it is.
struct Copy {
    std::string path;  ///< from where the page lies
    std::shared_ptr<const Bytes> jpeg;
};

struct Made {
    std::string html;
    std::vector<Copy> copies;
    std::size_t photos = 0;
    std::vector<std::string> unreadable;  ///< photo files
};

struct Making {
    std::string text;            ///< of the survey file, read without problems
    std::filesystem::path page;  ///< where it will lie
    unsigned jobs = 1;
    evidence::Progress looking, scaling;
    evidence::CopyStore* store = nullptr;  ///< copies of earlier runs, or none
};

/// Looks through the photo folder, pairs, scales. Throws Error if the folder cannot be opened.
[[nodiscard]] Made make(const survey::Survey& survey, const trade::Trade& trade, const Making& making);

}  // namespace rigdeed::marking
