#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "base/date.hpp"
#include "evidence/trouble.hpp"
#include "survey/survey.hpp"

/// What the photos say: read once, hashed, checked, decoded, scaled for print.
namespace rigdeed::evidence {

/// Exif tag Flash, 0x9209 (CIPA DC-008): bit 0 fired, bit 5 no flash unit.
struct Flash {
    int raw = 0;

    [[nodiscard]] bool fired() const { return (raw & 1) != 0; }
    [[nodiscard]] bool absent() const { return (raw & 0x20) != 0; }
    bool operator==(const Flash&) const = default;
};

/// What a camera wrote into the file. What it did not write, or wrote as nonsense, is absent: never a guess.
struct CameraFacts {
    std::optional<LocalTime> taken;    ///< DateTimeOriginal, by the camera's clock
    std::string subsecond;             ///< SubSecTimeOriginal, digits
    std::string offset;                ///< OffsetTimeOriginal, "+02:00"
    std::optional<LocalTime> changed;  ///< DateTime, 0x0132
    std::optional<Flash> flash;
    std::optional<int> orientation;       ///< 1 … 8
    std::optional<double> focal_35mm;     ///< mm
    std::optional<Millimetres> distance;  ///< SubjectDistance
    std::string camera;                   ///< make and model
    std::string software;
};

/// A photo as it will be printed: JPEG, 8 bit, grey or sRGB-like, upright, without metadata.
struct PrintCopy {
    std::shared_ptr<const Bytes> jpeg;
    int width = 0;
    int height = 0;
};

struct Photo {
    std::string name;  ///< as in the survey
    std::string file;  ///< path in the photo folder; empty if missing
    State state = State::missing;
    Trouble trouble{Why::not_there, 0, {}, {}};  ///< why it is not usable
    Digest sha256;
    std::optional<Digest> pixels;  ///< SHA-256 of its picture data alone, without what the camera or a program wrote
    std::uint64_t size = 0;        ///< bytes
    int width = 0;                 ///< pixels as it stands upright
    int height = 0;
    CameraFacts facts;
    PrintCopy print;                        ///< empty if no print size was asked for
    PrintCopy detail;                       ///< the square round the mark that was asked for, from the original pixels
    std::optional<survey::Mark> detail_of;  ///< what `detail` shows, moved so that it lies inside the photo
    int detail_wanted = 0;                  ///< pixels across `detail` that would have been enough

    std::optional<double> finest_edge;  ///< pixels that the sharpest edges take: see finest_edge_of; if asked for

    std::optional<Millimetres> drawn_scale;  ///< of one pixel, by a line that the survey has drawn on it

    [[nodiscard]] bool usable() const { return state == State::usable; }
    /// Sets trouble and the state it puts the photo in; no trouble makes it usable.
    void refuse(Trouble found);
    /// Millimetres on the subject for one pixel: distance x 36 mm / (35 mm focal length x long side in pixels),
    /// within 5 % for 4:3 frames (photogrammetry). If the camera did not record what it takes, by the line drawn on it.
    [[nodiscard]] std::optional<Millimetres> scale() const;
    /// When it was taken by true local time: the camera's time and what the survey says of its clock.
    [[nodiscard]] std::optional<LocalTime> true_time(const survey::Photos& photos) const;
};

struct Evidence {
    std::vector<Photo> photos;        ///< every one the survey names, once, in order of first use
    std::vector<std::string> unused;  ///< photo files in the folder that nothing names

    /// Photos are put in by this alone, so that `find` knows them.
    void add(Photo photo);
    [[nodiscard]] const Photo* find(std::string_view name) const;

 private:
    std::map<std::string, std::size_t, std::less<>> places_;  ///< in `photos`, by name
};

/// How large a photo will stand on paper: pixels along its longer side. A photo without an entry is
/// checked and decoded but not scaled for print.
using PrintSizes = std::map<std::string, int, std::less<>>;

/// Parts of photos that are printed large: where, by the photo's name.
using Details = std::map<std::string, survey::Mark, std::less<>>;

struct ForPrint {
    PrintSizes sizes;
    Details details;
    int detail_size = 0;  ///< pixels across each detail that are wanted, where the photo has them
    std::set<std::string, std::less<>> giving_way;  ///< photos of which smaller copies are made as well, for the store
    PrintSizes exact;                               ///< these have just so many pixels
};

using Progress = std::function<void(std::size_t done, std::size_t all)>;

class CopyStore;

struct Gathering {
    unsigned jobs = 1;  ///< threads
    Progress progress;
    CopyStore* copies = nullptr;      ///< where copies made before are, and new ones go; none: nowhere
    const Evidence* known = nullptr;  ///< gathered before in this run: photos are read again only for copies missing
    bool sharpness = false;           ///< of close photos is measured
};

/// Reads every photo the survey names, each once. Throws Error if the photo folder cannot be opened, or a photo is no
/// longer the one that is `known`.
[[nodiscard]] Evidence gather_evidence(const survey::Survey& survey, const ForPrint& print, const Gathering& how);

/// The same, without what was made for print.
[[nodiscard]] Evidence without_copies(const Evidence& evidence);

/// Gives photos the scales that the survey has drawn on them.
void take_scales(const survey::Survey& survey, Evidence& evidence);

/// Every photo name in the survey, once, in order of first use.
[[nodiscard]] std::vector<std::string> photo_names(const survey::Survey& survey);

}  // namespace rigdeed::evidence
