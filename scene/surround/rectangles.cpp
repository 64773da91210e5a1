#include "scene/surround/rectangles.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace rakelight {

namespace {

constexpr int kMostCells = 256;  // along the height: cuts lie between cells

// Summed light of a picture reduced to cells, and what a rectangle of them costs.
class Cells {
  public:
    Cells(const SurroundPicture& p, const std::function<bool(std::size_t)>& counts) : p_(p) {
        side_ = (p.height_px + kMostCells - 1) / kMostCells;
        columns_ = (p.width_px + side_ - 1) / side_;
        rows_ = (p.height_px + side_ - 1) / side_;
        sums_.assign(static_cast<std::size_t>(columns_ + 1) * static_cast<std::size_t>(rows_ + 1), 0);
        for (int y = 0; y < p.height_px; ++y) {
            const double sr = pixel_sr(p, y);
            for (int x = 0; x < p.width_px; ++x)
                if (const auto pixel = static_cast<std::size_t>(y) * p.width_px + x; counts(pixel))
                    sum(x / side_ + 1, y / side_ + 1) += sr * double(luminance_of(p.rgb[pixel]));
        }
        for (int y = 1; y <= rows_; ++y)
            for (int x = 1; x <= columns_; ++x)
                sum(x, y) += sum(x - 1, y) + sum(x, y - 1) - sum(x - 1, y - 1);
    }

    SurroundRectangle all() const { return {0, 0, columns_, rows_}; }

    SurroundRectangle in_pixels(const SurroundRectangle& r) const {
        const auto end = [](int cell, int side, int most) { return std::min(cell * side, most); };
        const int left = r.left * side_, top = r.top * side_;
        return {left, top, end(r.left + r.columns, side_, p_.width_px) - left,
                end(r.top + r.rows, side_, p_.height_px) - top};
    }

    // Light times half the breadth that it comes from.
    double cost(const SurroundRectangle& r) const {
        const int right = r.left + r.columns, bottom = r.top + r.rows;
        const double flux = at(right, bottom) - at(r.left, bottom) - at(right, r.top) + at(r.left, r.top);
        const double step_rad = std::numbers::pi * side_ / p_.height_px;
        const double high = r.rows * step_rad;
        // As wide as at the row nearest to the horizon.
        const double upper = r.top * step_rad, lower = bottom * step_rad, level = std::numbers::pi / 2;
        const double nearest = std::clamp(level, upper, lower);
        const double wide = std::min(r.columns * step_rad, std::numbers::pi) * std::sin(nearest);
        return std::max(flux, 0.0) * std::hypot(high, wide) / 2;
    }

    // The two halves whose cost together is least.
    std::optional<std::pair<SurroundRectangle, SurroundRectangle>> cut(const SurroundRectangle& r) const {
        std::optional<std::pair<SurroundRectangle, SurroundRectangle>> best;
        double least = 1e300;
        const auto weigh = [&](const SurroundRectangle& a, const SurroundRectangle& b) {
            const double both = cost(a) + cost(b);
            if (both < least) least = both, best = {a, b};
        };
        for (int k = 1; k < r.columns; ++k)
            weigh({r.left, r.top, k, r.rows}, {r.left + k, r.top, r.columns - k, r.rows});
        for (int k = 1; k < r.rows; ++k)
            weigh({r.left, r.top, r.columns, k}, {r.left, r.top + k, r.columns, r.rows - k});
        return best;
    }

  private:
    double& sum(int x, int y) {
        return sums_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_ + 1) +
                     static_cast<std::size_t>(x)];
    }
    double at(int x, int y) const {
        return sums_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_ + 1) +
                     static_cast<std::size_t>(x)];
    }

    const SurroundPicture& p_;
    int side_ = 1, columns_ = 0, rows_ = 0;
    std::vector<double> sums_;
};

}  // namespace

std::vector<SurroundRectangle> rectangles(const SurroundPicture& picture,
                                          const std::function<bool(std::size_t)>& counts, std::size_t most) {
    const Cells cells(picture, counts);
    std::vector<SurroundRectangle> parts{cells.all()};
    std::vector<double> costs{cells.cost(parts[0])};
    while (parts.size() < most) {
        const auto worst = static_cast<std::size_t>(std::ranges::max_element(costs) - costs.begin());
        if (!(costs[worst] > 0)) break;
        const auto halves = cells.cut(parts[worst]);
        costs[worst] = halves ? cells.cost(halves->first) : 0;
        if (!halves) continue;
        parts[worst] = halves->first;
        parts.push_back(halves->second);
        costs.push_back(cells.cost(halves->second));
    }
    for (SurroundRectangle& part : parts) part = cells.in_pixels(part);
    return parts;
}

}  // namespace rakelight
