#pragma once

#include <functional>
#include <random>
#include <string>
#include <vector>

#include "base/xml.hpp"

namespace rigdeed::mutations {

enum class How { take_element, take_attribute, question_mark, ten_times, exchange_photos, exchange_ids, shift_date };
inline constexpr const char* how_names[] = {
    "an element taken away", "an attribute taken away", "a value replaced by ?", "a value ten times itself",
    "two photos exchanged",  "two ids exchanged",       "a date shifted"};

/// One thing changed in a survey, and where.
struct Mutation {
    How how = How::take_element;
    std::string element;    ///< its name
    std::string parent;     ///< name of the element that holds it
    std::string attribute;  ///< empty: the element itself, or its text
    std::string before;
    std::string after;
    xml::Element root;  ///< the survey that comes out

    [[nodiscard]] std::string text() const;
};

/// All that may be changed in one survey.
class Mutator {
 public:
    explicit Mutator(const xml::Element& root);
    /// One of them by chance; each way of changing is as likely as the others.
    [[nodiscard]] Mutation next(std::mt19937& random) const;

 private:
    using Path = std::vector<std::size_t>;
    struct Place {
        Path path;
        std::string attribute;
    };
    void walk(const xml::Element& element, const Path& path);
    [[nodiscard]] static xml::Element& at(xml::Element& root, const Path& path, std::size_t up = 0);

    const xml::Element& root_;
    std::vector<Place> elements_, attributes_, texts_, numbers_, photos_, ids_, dates_;
};

[[nodiscard]] std::string written(const xml::Element& root);

}  // namespace rigdeed::mutations
