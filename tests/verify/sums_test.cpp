#include "verify/sums.hpp"

#include <doctest/doctest.h>

#include <random>
#include <string>

using namespace rigdeed;

TEST_CASE("the sum of a file without a piece is that of what is left, wherever the piece stands") {
    std::mt19937 random(5);
    constexpr std::size_t step = std::size_t{1} << 20;
    for (const std::size_t size : {std::size_t{0}, std::size_t{1}, step - 1, step, step + 1, 3 * step + 77}) {
        std::string file(size, '\0');
        for (char& c : file) c = static_cast<char>(random());
        const verify::Sums sums(file);
        CHECK(sums.whole() == crypto::sha256(file));
        for (int i = 0; i < 12; ++i) {
            const std::size_t begin = i == 0 ? size : random() % (size + 1),
                              end = begin + random() % (size - begin + 1);
            CHECK(sums.without(begin, end) == crypto::sha256(file.substr(0, begin) + file.substr(end)));
        }
    }
}
