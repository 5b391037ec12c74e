#pragma once

#include <condition_variable>
#include <cstddef>
#include <mutex>

namespace rigdeed::evidence {

/// How much is decoded at once over all threads. One picture may always be; another waits until there is room.
class PixelBudget {
 public:
    explicit PixelBudget(std::size_t most) : most_(most) {}

    /// Gives back what was taken when it ends.
    class Share {
     public:
        Share(PixelBudget& budget, std::size_t pixels) : budget_(budget), pixels_(pixels) {}
        ~Share() { budget_.give_back(pixels_); }
        Share(const Share&) = delete;
        Share& operator=(const Share&) = delete;

     private:
        PixelBudget& budget_;
        std::size_t pixels_;
    };
    /// Waits until there is room for so many pixels, or nothing else is being decoded.
    [[nodiscard]] Share take(std::size_t pixels);

 private:
    void give_back(std::size_t pixels);

    std::mutex guard_;
    std::condition_variable room_;
    std::size_t most_;
    std::size_t used_ = 0;
};

/// That of this process: a hundred million pixels.
[[nodiscard]] PixelBudget& pixel_budget();

}  // namespace rigdeed::evidence
