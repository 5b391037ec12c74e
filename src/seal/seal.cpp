#include "seal/seal.hpp"

#include "base/error.hpp"
#include "crypto/cms.hpp"
#include "crypto/digest.hpp"

namespace rigdeed::seal {
namespace {

constexpr std::string_view empty_range = "[0 0000000000 0000000000 0000000000]";
constexpr std::size_t digits = 10;

std::string ten_digits(std::size_t value) {
    const std::string plain = std::to_string(value);
    if (plain.size() > digits) throw Error("the PDF is too large to seal");
    return std::string(digits - plain.size(), '0') + plain;
}

void check_slot(const std::string& file, const SignatureSlot& slot) {
    const std::size_t end = slot.contents + slot.hex_digits + 2;
    const bool fits = slot.byte_range + empty_range.size() <= slot.contents && end < file.size() &&
                      file.compare(slot.byte_range, empty_range.size(), empty_range) == 0 &&
                      file[slot.contents] == '<' && file[end - 1] == '>' &&
                      file.find_first_not_of('0', slot.contents + 1) == end - 1;
    if (!fits) throw Error("the room for the seal is not where it should be", {}, {}, ExitCode::bug);
}

void check_room(std::size_t size, std::size_t room, bool stamped) {
    if (size <= room) return;
    throw Error("the signature with its certificates" + std::string(stamped ? " and timestamp" : "") + " takes " +
                    std::to_string(size) + " bytes; the report has room for " + std::to_string(room),
                {}, "export the signer with a shorter chain or smaller certificates");
}

}  // namespace

std::string seal(std::string&& rendered, const SignatureSlot& slot, const crypto::Signer& signer,
                 const crypto::Stamp& stamp) {
    check_slot(rendered, slot);
    const std::size_t after = slot.contents + slot.hex_digits + 2;
    const std::string range =
        "[0 " + ten_digits(slot.contents) + " " + ten_digits(after) + " " + ten_digits(rendered.size() - after) + "]";
    rendered.replace(slot.byte_range, range.size(), range);

    crypto::Hasher hasher;
    hasher.add(std::string_view(rendered).substr(0, slot.contents));
    hasher.add(std::string_view(rendered).substr(after));
    const Digest digest = hasher.finish();
    const std::size_t room = slot.hex_digits / 2;
    // No authority is asked for the timestamp of a signature that does not fit.
    if (stamp) check_room(crypto::make_cms(signer, digest).size(), room, false);
    const Bytes cms = crypto::make_cms(signer, digest, stamp);
    check_room(cms.size(), room, static_cast<bool>(stamp));
    const std::string hex = to_hex(cms);
    rendered.replace(slot.contents + 1, hex.size(), hex);
    return std::move(rendered);
}

}  // namespace rigdeed::seal
