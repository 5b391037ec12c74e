#pragma once

#include <string>
#include <vector>

#include "crypto/der.hpp"

namespace rigdeed::sample {

/// A CMS taken apart down to the fields of its SignedData and SignerInfo, to be changed and put together again.
struct Opened {
    std::vector<std::string> data;    // version, digests, content, certificates
    std::vector<std::string> signer;  // version, identity, digest, attributes, algorithm, signature
    std::string more_signers;

    explicit Opened(const std::string& cms) {
        const auto whole = crypto::der::only(cms, crypto::der::sequence);
        const auto info = crypto::der::elements(whole->content);
        const auto inner = crypto::der::elements((*info)[1].content);
        const auto fields = crypto::der::elements(inner->front().content);
        for (std::size_t i = 0; i < 4; ++i) data.emplace_back((*fields)[i].whole);
        const auto signers = crypto::der::elements((*fields)[4].content);
        const auto parts = crypto::der::elements(signers->front().content);
        for (const auto& part : *parts) signer.emplace_back(part.whole);
        name = (*info)[0].whole;
    }

    [[nodiscard]] std::string info() const {
        std::string all;
        for (const std::string& part : signer) all += part;
        return crypto::der::element(crypto::der::sequence, all);
    }

    [[nodiscard]] std::string closed() const {
        const std::string fields =
            data[0] + data[1] + data[2] + data[3] + crypto::der::element(crypto::der::set, info() + more_signers);
        return crypto::der::element(
            crypto::der::sequence,
            name + crypto::der::element(crypto::der::context0, crypto::der::element(crypto::der::sequence, fields)));
    }

 private:
    std::string name;
};

}  // namespace rigdeed::sample
