// A picture file by the camera of simulated_camera.h: a chart that lies anyhow, and flat samples on a table.
#pragma once

#include <OpenImageIO/imageio.h>

#include <cstdint>

#include "materials/photograph/chart24.h"
#include "output/samples/spots.h"
#include "tests/support/simulated_camera.h"

namespace rakelight::test {

/// Something flat and plain in the picture, corners going round; the later above.
struct FlatThing {
    std::array<glm::dvec2, 4> corners;
    std::array<double, 3> rgb;  ///< linear, a perfect white is 1

    bool covers(const glm::dvec2& p) const {
        for (std::size_t i = 0; i < 4; ++i) {
            const glm::dvec2 a = corners[i], b = corners[(i + 1) % 4];
            if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < 0) return false;
        }
        return true;
    }
};

inline std::array<glm::dvec2, 4> rectangle(double x, double y, double w, double h) {
    return {{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}};
}

struct SimulatedPicture {
    glm::ivec2 size{900, 600};
    Sensitivities camera = measured_camera();
    Spectrum light = *find_illuminant("D65");
    PixelMaker pixels;
    double exposure = 0.85;
    double fall = 0;  ///< of the light across the picture
    int blur_px = 0;  ///< half the side of a square that is averaged
    std::vector<FlatThing> things;

    std::array<double, 3> sees(const Spectrum& reflectance) const {
        return camera_sees(camera, light, reflectance);
    }
    static Spectrum grey(double reflectance) {
        Spectrum s;
        s.v.fill(reflectance);
        return s;
    }
    void add(const std::array<glm::dvec2, 4>& corners, const Spectrum& reflectance) {
        things.push_back({corners, sees(reflectance)});
    }
    /// Its black frame reaches beyond the patches as charts have it.
    void add_chart(const ChartCorners& corners) {
        constexpr double kFrame = 0.04;
        const auto at = [&](double x, double y) { return in_picture(corners, {x, y}); };
        add({{at(-kFrame, -1.5 * kFrame), at(1 + kFrame, -1.5 * kFrame), at(1 + kFrame, 1 + 1.5 * kFrame),
              at(-kFrame, 1 + 1.5 * kFrame)}},
            grey(0.04));
        const std::vector<Spectrum> chart = chart_at_5_nm();
        for (std::size_t i = 0; i < kChartPatches; ++i) {
            const glm::dvec2 low = patch_middle(i) - patch_side() / 2.0, high = low + patch_side();
            add({{at(low.x, low.y), at(high.x, low.y), at(high.x, high.y), at(low.x, high.y)}}, chart[i]);
        }
    }

    std::array<double, 3> at(const glm::dvec2& p) const {
        const double lit = exposure * (1 - fall * p.x / size.x);
        for (auto thing = things.rbegin(); thing != things.rend(); ++thing)
            if (thing->covers(p)) return {lit * thing->rgb[0], lit * thing->rgb[1], lit * thing->rgb[2]};
        return {lit * 0.3, lit * 0.28, lit * 0.25};  // the table
    }

    std::vector<double> light_of_pixels() const {
        std::vector<double> all;
        for (int y = 0; y < size.y; ++y)
            for (int x = 0; x < size.x; ++x)
                for (const double v : at({x + 0.5, y + 0.5})) all.push_back(v);
        for (const int step : {3, 3 * size.x}) all = blurred(all, step);
        return all;
    }
    std::vector<double> blurred(const std::vector<double>& all, int step) const {
        std::vector<double> r = all;
        const int last = static_cast<int>(all.size());
        for (int i = 0; blur_px > 0 && i < last; ++i) {
            double sum = 0;
            for (int k = -blur_px; k <= blur_px; ++k) {
                const int at = i + k * step;
                sum += all[static_cast<std::size_t>(at < 0 || at >= last ? i : at)];
            }
            r[static_cast<std::size_t>(i)] = sum / (2 * blur_px + 1);
        }
        return r;
    }

    /// As 8 bits with a tone curve, or as linear floats, as `pixels` has it.
    void write(const std::filesystem::path& path) {
        std::vector<float> values;
        for (const double v : light_of_pixels()) values.push_back(static_cast<float>(pixels.encoded(v)));
        const auto type = pixels.eight_bits ? OIIO::TypeDesc::UINT8 : OIIO::TypeDesc::FLOAT;
        const auto out = OIIO::ImageOutput::create(path.string());
        if (!out || !out->open(path.string(), OIIO::ImageSpec(size.x, size.y, 3, type)) ||
            !out->write_image(OIIO::TypeDesc::FLOAT, values.data()) || !out->close())
            throw std::runtime_error("cannot write " + path.string());
    }
};

}  // namespace rakelight::test
