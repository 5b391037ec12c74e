#include "reopen/pictures.hpp"

#include "base/archive.hpp"
#include "base/process.hpp"
#include "crypto/digest.hpp"
#include "verify/compare.hpp"

namespace rigdeed::reopen {

std::map<Digest, Bytes> pictures_in(std::string_view report) {
    const ChildResult result = in_child(
        [&] {
            ArchiveWriter writer;
            std::vector<std::string_view> pictures = verify::picture_contents(report);
            writer.list(pictures, [&](std::string_view& picture) {
                std::string bytes(picture);
                writer.text(bytes);
            });
            return std::move(writer.bytes);
        },
        {});
    std::map<Digest, Bytes> pictures;
    if (!result.ended_well) return pictures;
    ArchiveReader reader(result.bytes);
    std::vector<Bytes> all;
    reader.list(all, [&](Bytes& picture) { reader.block(picture); });
    if (!reader.ended_well()) return pictures;
    for (Bytes& picture : all) pictures.emplace(crypto::sha256(picture), std::move(picture));
    return pictures;
}

}  // namespace rigdeed::reopen
