// Fewer pixels from many: each new pixel is the mean of the area that it covers, so light is neither lost nor
// won. (OpenImageIO's box filter weighs whole pixels by their middles: of 3, 6, 9 it makes 4.5 and 7.5, not 4
// and 8.)
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace rakelight {

/// Size of a picture at most `most_side_px` (> 0) wide and high, in its own proportions; never larger than it
/// was.
struct PixelSize {
    int width = 0;
    int height = 0;
    friend bool operator==(const PixelSize&, const PixelSize&) = default;
};
inline PixelSize fit_within(PixelSize size, int most_side_px) {
    const double share = std::min(1.0, most_side_px / static_cast<double>(std::max(size.width, size.height)));
    const auto side = [&](int px) { return std::max(1, static_cast<int>(std::lround(px * share))); };
    return {side(size.width), side(size.height)};
}

/// Means over areas of linear values (row-major; `Value` adds and scales, as float or glm::vec3 do).
template <class Value>
std::vector<Value> area_mean(const std::vector<Value>& from, PixelSize old, PixelSize size) {
    if (old == size) return from;
    const auto along = [](const auto& get, int length, int wanted, const auto& put) {
        const double ratio = length / static_cast<double>(wanted);
        for (int i = 0; i < wanted; ++i) {
            const double begin = i * ratio;
            const double end = std::min<double>(length, begin + ratio);
            Value sum(0);
            for (int k = static_cast<int>(begin); k < end; ++k)
                sum += get(k) *
                       static_cast<float>((std::min(end, k + 1.0) - std::max(begin, double(k))) / ratio);
            put(i, sum);
        }
    };
    const auto at = [](int x, int y, int width) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
    };
    std::vector<Value> narrow(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(old.height));
    for (int y = 0; y < old.height; ++y)
        along([&](int k) { return from[at(k, y, old.width)]; }, old.width, size.width,
              [&](int i, const Value& v) { narrow[at(i, y, size.width)] = v; });
    std::vector<Value> to(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height));
    for (int x = 0; x < size.width; ++x)
        along([&](int k) { return narrow[at(x, k, size.width)]; }, old.height, size.height,
              [&](int i, const Value& v) { to[at(x, i, size.width)] = v; });
    return to;
}

}  // namespace rakelight
