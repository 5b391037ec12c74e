#include "verify/sums.hpp"

#include <algorithm>

namespace rigdeed::verify {
namespace {

constexpr std::size_t step = std::size_t{1} << 20;

}  // namespace

Sums::Sums(std::string_view file) : file_(file) {
    crypto::Hasher sum;
    for (std::size_t at = 0; at == 0 || at < file.size(); at += step) {
        beginnings_.push_back(sum);
        sum.add(file.substr(at, step));
    }
    whole_ = sum.finish();
}

Digest Sums::without(std::size_t begin, std::size_t end) const {
    const std::size_t known = std::min(begin / step, beginnings_.size() - 1);
    crypto::Hasher sum(beginnings_[known]);
    sum.add(file_.substr(known * step, begin - known * step));
    sum.add(file_.substr(end));
    return sum.finish();
}

}  // namespace rigdeed::verify
