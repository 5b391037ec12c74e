#include "pdf/library.hpp"

#include <hpdf.h>

namespace rigdeed::pdf {

std::string library() { return std::string("libharu ") + HPDF_GetVersion(); }

}  // namespace rigdeed::pdf
