#include "output/in_photograph/camera_look.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "materials/colour/colorimetry.h"
#include "materials/maths/hash.h"
#include "scene/surround/surround_picture.h"

namespace rakelight {
namespace {

constexpr int kBlock_px = 8;
constexpr std::size_t kLeastBlocks = 8;

using Block = Eigen::Matrix<double, kBlock_px * kBlock_px, 3>;

// What is left of a block of encoded values when a plane is taken off; none where a pixel is cut off.
std::optional<Block> residual(const LookedAt& p, int left, int top) {
    static const Eigen::Matrix<double, kBlock_px * kBlock_px, 3> plane = [] {
        Eigen::Matrix<double, kBlock_px * kBlock_px, 3> m;
        for (int i = 0; i < kBlock_px * kBlock_px; ++i)
            m.row(i) << 1, i % kBlock_px - (kBlock_px - 1) / 2.0, i / kBlock_px - (kBlock_px - 1) / 2.0;
        return m;
    }();
    Block block;
    for (int i = 0; i < kBlock_px * kBlock_px; ++i) {
        const std::size_t at = static_cast<std::size_t>(top + i / kBlock_px) * p.width + left + i % kBlock_px;
        if ((*p.spoilt)[at]) return {};
        const glm::vec3& rgb = (*p.rgb)[at];
        const EncodedSrgb e = encode({rgb.x, rgb.y, rgb.z});
        block.row(i) << e.r, e.g, e.b;
    }
    const Eigen::Matrix3d square = plane.transpose() * plane;
    return block - plane * square.ldlt().solve(plane.transpose() * block);
}

// The flatter half of the blocks: what others have beside is the drawing of things.
std::vector<Block> flat_blocks(const LookedAt& p) {
    std::vector<Block> blocks;
    for (int top = 0; top + kBlock_px <= p.height; top += kBlock_px)
        for (int left = 0; left + kBlock_px <= p.width; left += kBlock_px)
            if (const auto block = residual(p, left, top)) blocks.push_back(*block);
    std::ranges::sort(blocks, {}, [](const Block& b) { return b.squaredNorm(); });
    // The lowest tenth are flat by luck or by the camera's own smoothing: left out as well.
    const std::size_t from = blocks.size() / 10, to = std::max(from, blocks.size() / 2);
    return {blocks.begin() + static_cast<std::ptrdiff_t>(from),
            blocks.begin() + static_cast<std::ptrdiff_t>(to)};
}

void find_grain(const LookedAt& p, CameraLook& look) {
    const std::vector<Block> blocks = flat_blocks(p);
    if (blocks.size() < kLeastBlocks) return;
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
    double along = 0, all = 0;
    for (const Block& b : blocks) {
        covariance += b.transpose() * b / (kBlock_px * kBlock_px - 3) / static_cast<double>(blocks.size());
        for (int i = 0; i < kBlock_px * kBlock_px; ++i) {
            const double sq = b.row(i).squaredNorm();
            if (i % kBlock_px + 1 < kBlock_px) along += b.row(i).dot(b.row(i + 1)), all += sq;
            if (i / kBlock_px + 1 < kBlock_px) along += b.row(i).dot(b.row(i + kBlock_px)), all += sq;
        }
    }
    const Eigen::Matrix3d root = (covariance + 1e-12 * Eigen::Matrix3d::Identity()).llt().matrixL();
    for (int r = 0; r < 3; ++r)
        for (int c = 0; c <= r; ++c) look.grain[c][r] = root(r, c);
    if (all > 0) look.grain_along = std::clamp(along / all, -0.7, 0.7);
}

struct EdgePoint {
    double away_px, light;
};

// Least squares of dark + (bright - dark) * Phi((away - shift) / sigma).
struct EdgeFit {
    double sigma_px = 0, contrast = 0, misfit = 1e9;
};

EdgeFit fit_edge(const std::vector<EdgePoint>& points, double sigma_px, double shift_px) {
    Eigen::Matrix2d square = Eigen::Matrix2d::Zero();
    Eigen::Vector2d right = Eigen::Vector2d::Zero();
    double sum = 0;
    for (const EdgePoint& p : points) {
        const Eigen::Vector2d row(
            1, 0.5 * std::erfc(-(p.away_px - shift_px) / (sigma_px * std::numbers::sqrt2)));
        square += row * row.transpose();
        right += row * p.light;
        sum += p.light * p.light;
    }
    const Eigen::Vector2d found = square.ldlt().solve(right);
    return {sigma_px, std::abs(found[1]), std::max(0.0, sum - found.dot(right))};
}

// Finest first over steps of a tenth, then about the best.
EdgeFit best_edge(const std::vector<EdgePoint>& points) {
    EdgeFit best;
    double best_shift = 0;
    const auto search = [&](double from, double to, double step, double shift_from, double shift_to,
                            double shift_step) {
        for (double shift = shift_from; shift <= shift_to; shift += shift_step)
            for (double sigma = from; sigma <= to; sigma += step) {
                const EdgeFit fit = fit_edge(points, sigma, shift);
                if (fit.misfit < best.misfit) best = fit, best_shift = shift;
            }
    };
    search(0.25, 4, 0.25, -2, 2, 0.25);
    const double s = best.sigma_px, t = best_shift;
    search(std::max(0.2, s - 0.25), s + 0.25, 0.04, t - 0.25, t + 0.25, 0.05);
    return best;
}

std::vector<EdgePoint> across(const LookedAt& p, const glm::dvec2& from, const glm::dvec2& to) {
    constexpr double kReach_px = 7;
    const glm::dvec2 along = glm::normalize(to - from), out(along.y, -along.x);
    const double length = glm::distance(from, to);
    std::vector<EdgePoint> points;
    const glm::dvec2 low = glm::min(from, to) - kReach_px, high = glm::max(from, to) + kReach_px;
    for (int y = std::max(0, int(low.y)); y < std::min<double>(p.height, high.y); ++y)
        for (int x = std::max(0, int(low.x)); x < std::min<double>(p.width, high.x); ++x) {
            const glm::dvec2 at = glm::dvec2(x + 0.5, y + 0.5) - from;
            const double away = glm::dot(at, out), on = glm::dot(at, along);
            if (std::abs(away) > kReach_px || on < 0 || on > length) continue;
            const std::size_t i = static_cast<std::size_t>(y) * p.width + x;
            if ((*p.spoilt)[i]) return {};
            points.push_back({away, double(luminance_of((*p.rgb)[i]))});
        }
    return points;
}

void find_blur(const LookedAt& p, const std::array<glm::dvec2, 4>& corners, CameraLook& look) {
    constexpr double kPart_px = 24, kLeastContrast = 0.04,
                     kMostMisfit = 0.12;  // shares of white, of the step
    std::vector<double> sigmas;
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::dvec2 a = corners[i], b = corners[(i + 1) % 4];
        const int parts = static_cast<int>(glm::distance(a, b) * 0.8 / kPart_px);
        for (int k = 0; k < parts; ++k) {
            const auto at = [&](int n) { return glm::mix(a, b, 0.1 + 0.8 * n / parts); };
            const std::vector<EdgePoint> points = across(p, at(k), at(k + 1));
            if (points.size() < 60) continue;
            const EdgeFit fit = best_edge(points);
            const double misfit = std::sqrt(fit.misfit / static_cast<double>(points.size()));
            if (fit.contrast > kLeastContrast && misfit < kMostMisfit * fit.contrast)
                sigmas.push_back(fit.sigma_px);
        }
    }
    if (sigmas.size() < 4) return;
    std::ranges::nth_element(sigmas, sigmas.begin() + static_cast<std::ptrdiff_t>(sigmas.size() / 2));
    look.blur_px = sigmas[sigmas.size() / 2];
}

double white_noise(std::uint64_t seed, int x, int y, int channel) {
    const std::uint64_t place =
        (static_cast<std::uint64_t>(static_cast<std::uint32_t>(y)) << 32) | static_cast<std::uint32_t>(x);
    return Rng(hash_combine(hash_combine(seed, place), static_cast<std::uint64_t>(channel))).spread();
}

}  // namespace

double CameraLook::grain_sd() const {
    double sum = 0;
    for (int c = 0; c < 3; ++c) sum += glm::dot(grain[c], grain[c]);
    return std::sqrt(sum / 3);
}

CameraLook look_of(const LookedAt& picture, const std::array<glm::dvec2, 4>& corners_px) {
    CameraLook look;
    find_grain(picture, look);
    find_blur(picture, corners_px, look);
    return look;
}

// White noise through [side, 1, side] both ways: neighbours then correlate by 2 side / (1 + 2 side^2).
GrainOfCamera::GrainOfCamera(const CameraLook& look, std::uint64_t seed) : root_(look.grain), seed_(seed) {
    const double c = look.grain_along;
    if (std::abs(c) > 1e-3) side_ = (1 - std::sqrt(std::max(0.0, 1 - 2 * c * c))) / (2 * c);
    scale_ = 1 / (1 + 2 * side_ * side_);
}

glm::dvec3 GrainOfCamera::at(int x, int y) const {
    glm::dvec3 sum(0);
    for (int j = -1; j <= 1; ++j)
        for (int i = -1; i <= 1; ++i) {
            const double weight = scale_ * (i ? side_ : 1) * (j ? side_ : 1);
            if (weight == 0) continue;
            for (int c = 0; c < 3; ++c) sum[c] += weight * white_noise(seed_, x + i, y + j, c);
        }
    return root_ * sum;
}

}  // namespace rakelight
