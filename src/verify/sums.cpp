#include "verify/sums.hpp"

#include <algorithm>

namespace rigdeed::verify {
namespace {

constexpr std::size_t step = std::size_t{1} << 20;

}  // namespace

Sums::Sums(std::string_view file) {
    add(file);
    end(file);
}

void Sums::add(std::string_view piece) {
    while (!piece.empty()) {
        if (added_ % step == 0) beginnings_.push_back(sum_);
        const std::string_view next = piece.substr(0, step - added_ % step);
        sum_.add(next);
        added_ += next.size();
        piece.remove_prefix(next.size());
    }
}

void Sums::end(std::string_view file) {
    file_ = file;
    if (beginnings_.empty()) beginnings_.push_back(sum_);
    whole_ = sum_.finish();
}

Digest Sums::without(std::size_t begin, std::size_t end) const {
    const std::size_t known = std::min(begin / step, beginnings_.size() - 1);
    crypto::Hasher sum(beginnings_[known]);
    sum.add(file_.substr(known * step, begin - known * step));
    sum.add(file_.substr(end));
    return sum.finish();
}

}  // namespace rigdeed::verify
