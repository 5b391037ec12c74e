#pragma once

#include <optional>
#include <string>

#include "evidence/evidence.hpp"
#include "evidence/print.hpp"
#include "evidence/upright.hpp"

/// Photos as telephones write them: HEIC, a still picture coded as HEVC in a container (ISO/IEC 23008-12). What decodes
/// them is large and was often broken by hostile files: all of it runs in confined child processes.
namespace rigdeed::evidence {

/// Whether a file says that it is one.
[[nodiscard]] bool is_heif(const Bytes& bytes);

/// "libheif 1.15.1"
[[nodiscard]] std::string heif_library();

/// To be called before a child is started: decoders are looked up now, not there.
void prepare_heif();

/// In a confined child: the primary picture upright by the container's rule, Exif facts, and the copies wanted, all put
/// into `photo`, or its trouble. Further pictures, depth, gain maps and films in the file are left alone.
/// `smaller` gets the copies by which a photo gives way, if that is wanted.
void take_heif_apart(const Bytes& bytes, const Wanted& wanted, Photo& photo, int grey_size = 0, Raster* grey = nullptr,
                     std::vector<PrintCopy>* smaller = nullptr);

/// The same out of a child of its own, with limits; digest and size are made here. `bytes[i]` is of `photos[i]`, one
/// child each, all at once. To be called while there is one thread only.
struct HeifJob {
    const Bytes* bytes = nullptr;
    Wanted wanted;
    Photo* photo = nullptr;
    int grey_size = 0;                          ///< pixels along the longer side of `grey`
    Raster* grey = nullptr;                     ///< gets the brightness alone
    std::vector<PrintCopy>* smaller = nullptr;  ///< gets the copies by which the photo gives way, from large to small
};
void take_heifs_apart(const std::vector<HeifJob>& jobs);

}  // namespace rigdeed::evidence
