// Runs a fuzz target without a fuzzer: over each file named, and over variants of it that are the same each time.
//
// usage: replay_TARGET VARIANTS FILE…
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <random>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

namespace {

using Input = std::vector<std::uint8_t>;

Input read(const char* path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void run(const Input& input) { LLVMFuzzerTestOneInput(input.data(), input.size()); }

// One to four changes: a byte, a bit, a piece taken out, doubled, or cut off.
Input variant(Input input, std::mt19937& random) {
    for (unsigned left = 1 + random() % 4; left > 0 && !input.empty(); --left) {
        const std::size_t at = random() % input.size();
        const std::size_t count = std::min<std::size_t>(1 + random() % 64, input.size() - at);
        const auto from = input.begin() + static_cast<std::ptrdiff_t>(at);
        const auto to = from + static_cast<std::ptrdiff_t>(count);
        switch (random() % 5) {
            case 0: *from = static_cast<std::uint8_t>(random()); break;
            case 1: *from ^= static_cast<std::uint8_t>(1U << random() % 8); break;
            case 2: input.erase(from, to); break;
            case 3: {
                const Input piece(from, to);
                input.insert(from, piece.begin(), piece.end());
                break;
            }
            default: input.resize(at); break;
        }
    }
    return input;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 3) return std::fprintf(stderr, "usage: %s VARIANTS FILE…\n", argv[0]), 2;
    const int variants = std::atoi(argv[1]);
    long inputs = 0;
    for (int i = 2; i < argc; ++i) {
        const Input seed = read(argv[i]);
        if (seed.empty()) return std::fprintf(stderr, "%s: empty or not there\n", argv[i]), 2;
        std::mt19937 random(static_cast<std::mt19937::result_type>(i));
        run(seed);
        for (int k = 0; k < variants; ++k) run(variant(seed, random));
        inputs += 1 + variants;
    }
    std::printf("%ld inputs\n", inputs);
    return 0;
}
