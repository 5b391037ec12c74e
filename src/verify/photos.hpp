#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"

namespace rigdeed::verify {

/// What became of a photo of the register. Content counts, by SHA-256; its name may have changed.
enum class PhotoState {
    found,
    missing,
    altered,    ///< a file of its name is there, with other content
    never_had,  ///< the report was issued without it, and says so
    unreadable  ///< the system would not let us read it: what it is nobody knows
};

struct PhotoFinding {
    std::string file;  ///< as the register names it
    PhotoState state = PhotoState::missing;
    std::string found_as;  ///< path in the folder, if it is there
};

struct PhotosFinding {
    std::vector<PhotoFinding> photos;  ///< in the register's order
    std::vector<std::string> unknown;  ///< files of the folder that the register does not know
    std::string fault;                 ///< why the register cannot be used; empty if it can

    [[nodiscard]] std::size_t count(PhotoState state) const;
    /// None is missing, none altered, each could be read, and there was a register to go by.
    [[nodiscard]] bool all_found() const;
};

/// A row of the photo register that a report carries (photos.xml).
struct RegisteredPhoto {
    std::string file;
    std::optional<Digest> sha256;  ///< none: the report was issued without it
};

/// Nothing if the register does not have the form in which it is written.
[[nodiscard]] std::optional<std::vector<RegisteredPhoto>> read_register(std::string_view text);

struct FolderFile {
    std::string path;
    Digest sha256;
};

/// Holds the files of a folder against the register.
[[nodiscard]] PhotosFinding compare_photos(const std::vector<RegisteredPhoto>& registered,
                                           const std::vector<FolderFile>& folder);

}  // namespace rigdeed::verify
