#include "evidence/colour.hpp"

#include <lcms2.h>

#include <memory>

namespace rigdeed::evidence {
namespace {

using Profile = std::unique_ptr<void, decltype(&cmsCloseProfile)>;
using Transform = std::unique_ptr<void, decltype(&cmsDeleteTransform)>;

void ignore_errors(cmsContext, cmsUInt32Number, const char*) {}

}  // namespace

void to_srgb(Raster& raster, const Bytes& bytes) {
    if (raster.channels != 3 || bytes.empty()) return;
    const std::unique_ptr<_cmsContext_struct, decltype(&cmsDeleteContext)> context(cmsCreateContext(nullptr, nullptr),
                                                                                   cmsDeleteContext);
    if (!context) return;
    cmsSetLogErrorHandlerTHR(context.get(), ignore_errors);
    const Profile from(
        cmsOpenProfileFromMemTHR(context.get(), bytes.data(), static_cast<cmsUInt32Number>(bytes.size())),
        cmsCloseProfile);
    const Profile srgb(cmsCreate_sRGBProfileTHR(context.get()), cmsCloseProfile);
    if (!from || !srgb || cmsGetColorSpace(from.get()) != cmsSigRgbData) return;
    const Transform transform(cmsCreateTransformTHR(context.get(), from.get(), TYPE_RGB_8, srgb.get(), TYPE_RGB_8,
                                                    INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_BLACKPOINTCOMPENSATION),
                              cmsDeleteTransform);
    if (!transform) return;
    for (int y = 0; y < raster.height; ++y)
        cmsDoTransform(transform.get(), raster.row(y), raster.row(y), static_cast<cmsUInt32Number>(raster.width));
}

std::string colour_library() {
    const int version = cmsGetEncodedCMMversion();  // 2140: 2.14
    const int minor = version % 1000;
    return "Little CMS " + std::to_string(version / 1000) + "." + std::to_string(minor / 10) +
           (minor % 10 > 0 ? "." + std::to_string(minor % 10) : "");
}

}  // namespace rigdeed::evidence
