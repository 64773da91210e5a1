// A page drawn on by hand, as reflectance: pencil lines that wobble in darkness over paper with grain,
// felt-tip lines and spots. And what is true of it: the regions that its lines enclose, and how far a point
// lies from the nearest line.
#pragma once

#include <OpenImageIO/imageio.h>

#include <algorithm>
#include <filesystem>
#include <limits>
#include <vector>

#include "tests/support/photographed_sheet.h"

namespace rakelight::test {

using Line = std::vector<glm::dvec2>;  ///< mm from the page's upper left corner, y down

inline double spot_noise(double x, double y, std::uint64_t seed) {
    const auto at = [&](double i, double k) {
        return unit_from_hash(hash_combine(
            seed, hash_combine(static_cast<std::uint64_t>(i + 1e6), static_cast<std::uint64_t>(k + 1e6))));
    };
    const double i = std::floor(x), k = std::floor(y), u = x - i, v = y - k;
    return (at(i, k) * (1 - u) + at(i + 1, k) * u) * (1 - v) +
           (at(i, k + 1) * (1 - u) + at(i + 1, k + 1) * u) * v;
}

inline double length_of(const Line& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.size(); ++i) sum += glm::distance(line[i - 1], line[i]);
    return sum;
}

/// The part of a line between two lengths along it.
inline Line part_of(const Line& line, double from, double to) {
    Line part;
    double at = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double step = glm::distance(line[i - 1], line[i]);
        const auto put = [&](double length) {
            part.push_back(glm::mix(line[i - 1], line[i], (length - at) / step));
        };
        if (step > 0 && at + step > from && at < to) {
            if (part.empty()) put(std::max(from, at));
            put(std::min(to, at + step));
        }
        at += step;
    }
    return part;
}

class DrawnPage {
  public:
    explicit DrawnPage(const glm::dvec2& size_mm) : size_(size_mm) { rgb_.assign(3 * cells(), 255); }

    /// `cover`: how much of the paper it hides, of red, green and blue light.
    void draw(const Line& line, double width_mm, const glm::dvec3& cover, double wobble, std::uint64_t seed) {
        for (std::size_t i = 1; i < line.size(); ++i) {
            const int steps = std::max(1, static_cast<int>(glm::distance(line[i - 1], line[i]) / 0.08));
            for (int s = 0; s <= steps; ++s)
                dab(glm::mix(line[i - 1], line[i], double(s) / steps), width_mm / 2, cover, wobble, seed);
        }
    }
    void pencil(const Line& line, double width_mm = 0.5) {
        draw(line, width_mm, glm::dvec3(0.62), 0.5, ++strokes_);
    }
    void felt(const Line& line, const glm::dvec3& cover, double width_mm = 0.9) {
        draw(line, width_mm, cover, 0.1, ++strokes_);
    }
    void spot(const glm::dvec2& at, double radius_mm, const glm::dvec3& cover) {
        dab(at, radius_mm, cover, 0.15, ++strokes_);
    }

    /// Paper of 82 % with grain; a dark table round it.
    glm::dvec3 at(const glm::dvec2& mm) const {
        if (mm.x < 0 || mm.y < 0 || mm.x >= size_.x || mm.y >= size_.y) return {0.10, 0.08, 0.06};
        const double grain = 1 + 0.06 * (spot_noise(mm.x / 0.45, mm.y / 0.45, 5) - 0.5) +
                             0.04 * (spot_noise(mm.x / 0.15, mm.y / 0.15, 6) - 0.5);
        const std::size_t i = 3 * cell(mm);
        return 0.82 * grain * glm::dvec3(rgb_[i], rgb_[i + 1], rgb_[i + 2]) / 255.0;
    }

  private:
    static constexpr double kFine = 8;  // cells a millimetre
    std::size_t cells() const {
        return static_cast<std::size_t>(size_.x * kFine) * static_cast<std::size_t>(size_.y * kFine);
    }
    std::size_t cell(const glm::dvec2& mm) const {
        return static_cast<std::size_t>(mm.y * kFine) * static_cast<std::size_t>(size_.x * kFine) +
               static_cast<std::size_t>(mm.x * kFine);
    }
    void dab(const glm::dvec2& at, double radius, const glm::dvec3& cover, double wobble,
             std::uint64_t seed) {
        for (double y = std::floor((at.y - radius) * kFine); y <= (at.y + radius) * kFine; ++y)
            for (double x = std::floor((at.x - radius) * kFine); x <= (at.x + radius) * kFine; ++x) {
                const glm::dvec2 mm((x + 0.5) / kFine, (y + 0.5) / kFine);
                if (glm::distance(mm, at) > radius || mm.x < 0 || mm.y < 0 || mm.x >= size_.x ||
                    mm.y >= size_.y)
                    continue;
                const double part = 1 - wobble * spot_noise(mm.x / 0.2, mm.y / 0.2, seed);
                for (int c = 0; c < 3; ++c) {
                    auto& byte = rgb_[3 * cell(mm) + static_cast<std::size_t>(c)];
                    byte = std::min(byte, static_cast<std::uint8_t>(255 * (1 - part * cover[c])));
                }
            }
    }

    glm::dvec2 size_;
    std::vector<std::uint8_t> rgb_;
    std::uint64_t strokes_ = 100;
};

/// Cells of a quarter of a millimetre: how far each lies from the nearest line or edge (chamfer of 5 and 7,
/// Borgefors 1986, under 5 % off), and which region it belongs to.
class TrueRegions {
  public:
    TrueRegions(const glm::dvec2& size_mm, const std::vector<Line>& lines)
        : width_(static_cast<int>(size_mm.x * kFine) + 1), height_(static_cast<int>(size_mm.y * kFine) + 1) {
        away_.assign(static_cast<std::size_t>(width_ * height_), std::numeric_limits<int>::max() / 2);
        region_.assign(away_.size(), -1);
        for (const Line& line : lines)
            for (std::size_t i = 1; i < line.size(); ++i)
                for (int s = 0, n = 1 + static_cast<int>(glm::distance(line[i - 1], line[i]) * kFine * 3);
                     s <= n; ++s)
                    mark(glm::mix(line[i - 1], line[i], double(s) / n));
        for (int x = 0; x < width_; ++x) set(x, 0), set(x, height_ - 1);
        for (int y = 0; y < height_; ++y) set(0, y), set(width_ - 1, y);
        flood();
        chamfer();
        find_middles();
    }

    struct Part {
        double area_mm2 = 0;
        glm::dvec2 middle_mm{};  ///< farthest from every line
        double clear_mm = 0;     ///< how far that is
    };
    const std::vector<Part>& parts() const { return parts_; }
    double away_mm(const glm::dvec2& mm) const {
        const int x = std::clamp(static_cast<int>(mm.x * kFine), 0, width_ - 1),
                  y = std::clamp(static_cast<int>(mm.y * kFine), 0, height_ - 1);
        return away_[index(x, y)] / (5.0 * kFine);
    }

  private:
    static constexpr int kFine = 4;
    std::size_t index(int x, int y) const { return static_cast<std::size_t>(y * width_ + x); }
    void set(int x, int y) { away_[index(x, y)] = 0; }
    void mark(const glm::dvec2& p) {
        const int x = static_cast<int>(std::floor(p.x * kFine)),
                  y = static_cast<int>(std::floor(p.y * kFine));
        if (x >= 0 && y >= 0 && x < width_ && y < height_) set(x, y);
    }
    void flood() {
        for (int y = 0; y < height_; ++y)
            for (int x = 0; x < width_; ++x) {
                if (away_[index(x, y)] == 0 || region_[index(x, y)] >= 0) continue;
                const int number = static_cast<int>(parts_.size());
                parts_.emplace_back();
                std::vector<glm::ivec2> todo{{x, y}};
                region_[index(x, y)] = number;
                while (!todo.empty()) {
                    const glm::ivec2 p = todo.back();
                    todo.pop_back();
                    parts_.back().area_mm2 += 1.0 / (kFine * kFine);
                    for (const glm::ivec2 step : {glm::ivec2(1, 0), {-1, 0}, {0, 1}, {0, -1}}) {
                        const glm::ivec2 q = p + step;
                        if (q.x < 0 || q.y < 0 || q.x >= width_ || q.y >= height_) continue;
                        if (away_[index(q.x, q.y)] == 0 || region_[index(q.x, q.y)] >= 0) continue;
                        region_[index(q.x, q.y)] = number;
                        todo.push_back(q);
                    }
                }
            }
    }
    void chamfer() {
        const auto relax = [&](int x, int y, int dx, int dy, int cost) {
            const int u = x + dx, v = y + dy;
            if (u >= 0 && v >= 0 && u < width_ && v < height_)
                away_[index(x, y)] = std::min(away_[index(x, y)], away_[index(u, v)] + cost);
        };
        for (int y = 0; y < height_; ++y)
            for (int x = 0; x < width_; ++x)
                relax(x, y, -1, 0, 5), relax(x, y, 0, -1, 5), relax(x, y, -1, -1, 7), relax(x, y, 1, -1, 7);
        for (int y = height_ - 1; y >= 0; --y)
            for (int x = width_ - 1; x >= 0; --x)
                relax(x, y, 1, 0, 5), relax(x, y, 0, 1, 5), relax(x, y, 1, 1, 7), relax(x, y, -1, 1, 7);
    }
    void find_middles() {
        for (int y = 0; y < height_; ++y)
            for (int x = 0; x < width_; ++x) {
                if (region_[index(x, y)] < 0) continue;
                Part& part = parts_[static_cast<std::size_t>(region_[index(x, y)])];
                const double clear = away_[index(x, y)] / (5.0 * kFine);
                if (clear <= part.clear_mm) continue;
                part.clear_mm = clear;
                part.middle_mm = {(x + 0.5) / kFine, (y + 0.5) / kFine};
            }
    }

    int width_, height_;
    std::vector<int> away_, region_;
    std::vector<Part> parts_;
};

/// Saves a picture as JPEG.
inline void save_jpeg(const BytePicture& picture, const std::filesystem::path& path, int quality) {
    const auto out = OIIO::ImageOutput::create("jpg");
    OIIO::ImageSpec spec(picture.size_px.x, picture.size_px.y, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("Compression", "jpeg:" + std::to_string(quality));
    out->open(path.string(), spec);
    out->write_image(OIIO::TypeDesc::UINT8, picture.rgb.data());
    out->close();
}

}  // namespace rakelight::test
