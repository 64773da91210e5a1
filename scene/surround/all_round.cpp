#include "scene/surround/all_round.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "scene/surround/bright_spots.h"
#include "scene/surround/rectangles.h"

namespace rakelight {

namespace {

constexpr std::uint16_t kNoPatch = std::numeric_limits<std::uint16_t>::max();

// The rectangle about the pixels of a spot: columns from after the widest gap round the picture.
SurroundPatch about(const SurroundPicture& p, const std::vector<std::uint32_t>& spot) {
    SurroundPatch patch;
    std::vector<bool> has(static_cast<std::size_t>(p.width_px));
    int top = p.height_px, bottom = 0;
    for (const std::uint32_t pixel : spot) {
        has[pixel % static_cast<std::uint32_t>(p.width_px)] = true;
        top = std::min(top, static_cast<int>(pixel) / p.width_px);
        bottom = std::max(bottom, static_cast<int>(pixel) / p.width_px);
    }
    int gap = 0, widest = 0, after = 0;
    for (int i = 0; i < 2 * p.width_px; ++i) {
        gap = has[static_cast<std::size_t>(i % p.width_px)] ? 0 : std::min(gap + 1, p.width_px);
        if (gap > widest) widest = gap, after = (i + 1) % p.width_px;
    }
    patch.spot = true;
    patch.left = widest > 0 ? after : 0;
    patch.columns = p.width_px - widest;
    patch.top = top;
    patch.rows = bottom - top + 1;
    return patch;
}

// Place of `u` in rising sums from 0 to 1: the step, and how far into it, in [0, 1).
std::pair<int, float> step_at(const float* sums, int count, float u) {
    const float* const up = std::upper_bound(sums + 1, sums + count, u);
    const float low = up[-1], high = *up;
    const float within = high > low ? (u - low) / (high - low) : 0.5f;
    return {static_cast<int>(up - sums) - 1, std::clamp(within, 0.0f, 0.99999994f)};
}

}  // namespace

AllRound::AllRound(SurroundPicture picture, std::size_t most_patches) : picture_(std::move(picture)) {
    const SurroundPicture& p = picture_;
    patch_of_.assign(p.rgb.size(), kNoPatch);
    const auto spots = bright_spots(p);
    for (std::size_t s = 0; s < spots.size(); ++s)
        for (const std::uint32_t pixel : spots[s]) patch_of_[pixel] = static_cast<std::uint16_t>(s);
    std::vector<SurroundPatch> wanted;
    for (const auto& spot : spots) wanted.push_back(about(p, spot));
    const auto is_rest = [&](std::size_t pixel) { return patch_of_[pixel] == kNoPatch; };
    for (const SurroundRectangle& r : rectangles(p, is_rest, most_patches - wanted.size())) {
        for (int y = r.top; y < r.top + r.rows; ++y)
            for (int x = r.left; x < r.left + r.columns; ++x)
                if (auto& number = patch_of_[static_cast<std::size_t>(y) * p.width_px + x];
                    number == kNoPatch)
                    number = static_cast<std::uint16_t>(wanted.size());
        wanted.push_back({r.left, r.top, r.columns, r.rows});
    }
    for (std::size_t i = 0; i < wanted.size(); ++i) take_in(wanted[i], static_cast<std::uint32_t>(i));
}

void AllRound::take_in(SurroundPatch patch, std::uint32_t number) {
    const SurroundPicture& p = picture_;
    patch.first = rows_.size();
    patch.first_pixel = pixels_.size();
    std::vector<double> of_rows{0};
    glm::dvec3 mean(0);
    const auto each = [&](auto&& visit) {
        for (int j = 0; j < patch.rows; ++j)
            for (int i = 0; i < patch.columns; ++i) {
                const int x = (patch.left + i) % p.width_px, y = patch.top + j;
                const auto pixel = static_cast<std::size_t>(y) * p.width_px + x;
                visit(i, x, y, pixel, patch_of_[pixel] == number);
            }
    };
    double of_row = 0;
    each([&](int i, int x, int y, std::size_t pixel, bool own) {
        if (i == 0) of_row = 0, pixels_.push_back(0);
        if (own) {
            const double sr = pixel_sr(p, y);
            const double flux = luminance_of(p.rgb[pixel]) * sr;
            of_row += flux;
            patch.solid_angle_sr += sr;
            patch.rgb += sr * glm::dvec3(p.rgb[pixel]);
            mean += flux * glm::dvec3(pixel_direction(p, x, y));
        }
        pixels_.push_back(static_cast<float>(of_row));
        if (i + 1 == patch.columns) of_rows.push_back(of_rows.back() + of_row);
    });
    patch.flux = of_rows.back();
    if (glm::length(mean) > 0) patch.direction = glm::normalize(mean);
    const std::size_t stride = static_cast<std::size_t>(patch.columns) + 1;
    for (std::size_t j = 0; j < of_rows.size(); ++j) {
        rows_.push_back(patch.flux > 0 ? static_cast<float>(of_rows[j] / patch.flux) : 0.0f);
        if (j + 1 == of_rows.size()) break;
        float* const row = &pixels_[patch.first_pixel + j * stride];
        const float sum = row[patch.columns];
        if (sum > 0)
            for (std::size_t i = 0; i < stride; ++i) row[i] /= sum;
    }
    each([&](int, int x, int y, std::size_t, bool own) {
        if (!own) return;
        const double half_pixel_rad = 1.5 * std::numbers::pi / p.height_px;
        const double cosine = glm::dot(patch.direction, glm::dvec3(pixel_direction(p, x, y)));
        patch.reach_rad =
            std::max(patch.reach_rad, std::acos(std::clamp(cosine, -1.0, 1.0)) + half_pixel_rad);
    });
    patches_.push_back(patch);
}

SampledPixel AllRound::sample(std::size_t number, const glm::vec2& u) const {
    const SurroundPatch& patch = patches_[number];
    const auto [row, down] = step_at(&rows_[patch.first], patch.rows, u.x);
    const std::size_t stride = static_cast<std::size_t>(patch.columns) + 1;
    const auto [column, along] =
        step_at(&pixels_[patch.first_pixel + static_cast<std::size_t>(row) * stride], patch.columns, u.y);
    const int x = (patch.left + column) % picture_.width_px, y = patch.top + row;
    const double above = sine_of_altitude(picture_, y), below = sine_of_altitude(picture_, y + 1);
    return {direction_of(picture_, above + (below - above) * double(down), x + double(along)),
            static_cast<std::uint32_t>(y * picture_.width_px + x)};
}

double AllRound::plane_light(const glm::dvec3& normal) const {
    double total = 0;
    for (int y = 0; y < picture_.height_px; ++y) {
        double row = 0;
        for (int x = 0; x < picture_.width_px; ++x) {
            const double cosine = glm::dot(normal, glm::dvec3(pixel_direction(picture_, x, y)));
            if (cosine > 0)
                row += cosine * double(luminance(static_cast<std::uint32_t>(y * picture_.width_px + x)));
        }
        total += row * pixel_sr(picture_, y);
    }
    return total;
}

}  // namespace rakelight
