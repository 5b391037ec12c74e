#include "verify/inflate.hpp"

#include <zlib.h>

#include <algorithm>

namespace rigdeed::verify {

std::optional<Bytes> inflated(std::string_view packed, std::size_t most) {
    z_stream stream{};
    // not reached: memory alone
    if (inflateInit(&stream) != Z_OK) return std::nullopt;
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
    stream.avail_in = static_cast<uInt>(packed.size());
    Bytes result;
    int outcome = Z_OK;
    do {
        const std::size_t done = stream.total_out;
        result.resize(std::min(most + 1, std::max<std::size_t>(2 * done, 65536)));
        stream.next_out = result.data() + done;
        stream.avail_out = static_cast<uInt>(result.size() - done);
        outcome = inflate(&stream, Z_NO_FLUSH);
    } while (outcome == Z_OK && stream.avail_out == 0 && stream.total_out <= most);
    const bool whole = outcome == Z_STREAM_END && stream.avail_in == 0 && stream.total_out <= most;
    result.resize(stream.total_out);
    inflateEnd(&stream);
    if (!whole) return std::nullopt;
    return result;
}

}  // namespace rigdeed::verify
