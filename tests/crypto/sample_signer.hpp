#pragma once

#include "crypto/signer.hpp"

/// Keys for tests, each made once in a run.
namespace rigdeed::sample {

inline constexpr const char* passphrase = "correct horse";

[[nodiscard]] const Bytes& ann_file();  ///< PKCS#12 of Ann Rigger, RSA-3072, by make_signer
[[nodiscard]] const crypto::Signer& ann();
[[nodiscard]] const crypto::Signer& another_ann();  ///< the same name, another key

enum class Curve { p256, p384 };
/// PKCS#12 as other programs write it: an EC key with a self-made certificate.
[[nodiscard]] Bytes ec_file(Curve curve, const char* phrase = passphrase);
/// As ec_file, but the certificate is of another key.
[[nodiscard]] Bytes mismatched_file();

}  // namespace rigdeed::sample
