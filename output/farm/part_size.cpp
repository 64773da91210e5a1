#include "output/farm/part_size.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

constexpr int kTileRows = 16;

double begins_s(const PictureCost& cost) {
    return cost.set_up_s + kTaskBegins_s;
}

}  // namespace

int parts_for(const PictureCost& cost) {
    // set-up <= share (set-up + trace / n), solved for n.
    const double most =
        cost.trace_s * kMostSetUpShare / ((1 - kMostSetUpShare) * std::max(begins_s(cost), 1e-9));
    const int most_rows = std::clamp(cost.rows / kTileRows, 1, kMostParts);
    return most >= most_rows ? most_rows : std::max(1, static_cast<int>(most));
}

double part_s(const PictureCost& cost, int parts) {
    return begins_s(cost) + cost.trace_s / parts;
}

int time_limit_min(double estimate_s) {
    return static_cast<int>(std::ceil(3 * estimate_s / 60)) + 5;
}

SplitCost split_cost(const PictureCost& cost, const JoinCost& join, int parts) {
    SplitCost split;
    // One part is the picture itself: nothing is written to be read again.
    split.folder_s = parts > 1 ? 2 * join.bytes / join.folder_b_per_s : 0;
    const double join_s = parts > 1 ? join.join_s + begins_s({}) : 0;
    split.elapsed_s = part_s(cost, parts) + split.folder_s + join_s;
    split.machine_s = parts * part_s(cost, parts) + split.folder_s + join_s;
    split.set_up_share = begins_s(cost) / part_s(cost, parts);
    return split;
}

}  // namespace rakelight
