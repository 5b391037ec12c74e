#include "evidence/pixel_budget.hpp"

namespace rigdeed::evidence {

PixelBudget::Share PixelBudget::take(std::size_t pixels) {
    std::unique_lock lock(guard_);
    room_.wait(lock, [&] { return used_ == 0 || used_ + pixels <= most_; });
    used_ += pixels;
    return {*this, pixels};
}

void PixelBudget::give_back(std::size_t pixels) {
    {
        const std::scoped_lock lock(guard_);
        used_ -= pixels;
    }
    room_.notify_all();
}

PixelBudget& pixel_budget() {
    static PixelBudget budget(100'000'000);
    return budget;
}

}  // namespace rigdeed::evidence
