#include "pairing/places.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "crypto/digest.hpp"

namespace rigdeed::pairing {
namespace {

constexpr std::string_view mark = "RD";
constexpr std::size_t id_size = 5;
constexpr std::string_view letters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

// Out of a digest: five of 36 letters and digits are 60 million.
std::string short_id(const std::string& text) {
    const Digest digest = crypto::sha256(text);
    std::uint64_t number = 0;
    for (std::size_t i = 0; i < 8; ++i) number = number << 8 | digest.bytes[i];
    std::string id;
    for (std::size_t i = 0; i < id_size; ++i) {
        id += letters[number % letters.size()];
        number /= letters.size();
    }
    return id;
}

std::string key_of(const survey::Fitting& fitting) {
    if (!fitting.stay.empty()) return fitting.stay + "\n" + fitting.station;
    return "\n" + fitting.mast + "\n" + (fitting.side ? survey::name_of(*fitting.side) : std::string()) + "\n" +
           fitting.station;
}

bool is_id(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return letters.find(c) != std::string_view::npos; });
}

}  // namespace

std::vector<Place> places_of(const survey::Survey& survey) {
    std::vector<Place> places;
    for (std::size_t i = 0; i < survey.fittings.size(); ++i) {
        const std::string id = short_id(key_of(survey.fittings[i]));
        auto place = std::find_if(places.begin(), places.end(), [&](const Place& one) { return one.id == id; });
        if (place == places.end()) place = places.insert(places.end(), Place{id, {}});
        place->fittings.push_back(i);
    }
    return places;
}

Code code_of(const survey::Survey& survey, const Place& place, survey::Way pass) {
    return {short_id(survey.number), place.id, pass};
}

std::string code_text(const Code& code) {
    return std::string(mark) + code.survey + code.place + (code.pass == survey::Way::up ? "U" : "D");
}

std::optional<Code> read_code(std::string_view text) {
    if (text.size() != mark.size() + 2 * id_size + 1 || !text.starts_with(mark) || !is_id(text)) return std::nullopt;
    if (text.back() != 'U' && text.back() != 'D') return std::nullopt;
    return Code{std::string(text.substr(mark.size(), id_size)),
                std::string(text.substr(mark.size() + id_size, id_size)),
                text.back() == 'U' ? survey::Way::up : survey::Way::down};
}

}  // namespace rigdeed::pairing
