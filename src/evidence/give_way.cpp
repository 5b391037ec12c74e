#include "evidence/give_way.hpp"

#include <algorithm>
#include <cmath>

#include "evidence/print.hpp"

namespace rigdeed::evidence {
namespace {

const GivingWay::Size& at(const GivingWay& photo, std::size_t step) {
    return photo.sizes[std::min(step, photo.sizes.size() - 1)];
}

std::size_t sum_at(const std::vector<GivingWay>& photos, std::size_t step) {
    std::size_t sum = 0;
    for (const GivingWay& photo : photos) sum += at(photo, step).bytes;
    return sum;
}

}  // namespace

std::vector<GivingWay> giving_way(const Evidence& evidence, const ForPrint& print, CopyStore& store) {
    std::vector<GivingWay> all;
    for (const std::string& name : print.giving_way) {
        const Photo* photo = evidence.find(name);
        if (photo == nullptr || !photo->usable() || !photo->print.jpeg) continue;
        const int side = std::max(photo->print.width, photo->print.height);
        const std::size_t bytes = photo->print.jpeg->size();
        GivingWay one{name, {{side, bytes}}};
        for (const int smaller : smaller_sides(side)) {
            const auto copy = copy_of(*photo, smaller, store);
            const double share = std::pow(static_cast<double>(smaller) / side, 1.7);
            one.sizes.push_back({smaller, copy && copy->jpeg
                                              ? copy->jpeg->size()
                                              : static_cast<std::size_t>(share * static_cast<double>(bytes))});
        }
        all.push_back(std::move(one));
    }
    return all;
}

std::size_t largest(const std::vector<GivingWay>& photos) { return sum_at(photos, 0); }
std::size_t smallest(const std::vector<GivingWay>& photos) { return sum_at(photos, std::string::npos); }

std::optional<PrintSizes> sides_within(const std::vector<GivingWay>& photos, std::size_t budget) {
    if (smallest(photos) > budget) return std::nullopt;
    std::size_t step = 0;
    while (sum_at(photos, step) > budget) ++step;
    std::size_t sum = sum_at(photos, step);
    PrintSizes sides;
    for (const GivingWay& photo : photos) {
        const GivingWay::Size& small = at(photo, step);
        const GivingWay::Size& large = step > 0 ? at(photo, step - 1) : small;
        const bool room = sum - small.bytes + large.bytes <= budget;
        if (room) sum = sum - small.bytes + large.bytes;
        sides[photo.name] = room ? large.side : small.side;
    }
    return sides;
}

}  // namespace rigdeed::evidence
