// A camera in numbers: measured sensitivities, any light, a tone curve like that of sRGB, noise and 8 bits.
// Sensitivities of a real camera after Darrodi, Finlayson, Goodman and Mackiewicz 2015, J. Opt. Soc. Am. A
// 32, 381 (tests/data/camera_sensitivities.csv); samples to judge by are the 99 of CIE 224:2017
// (tests/data/ces99_reflectance_5nm.csv), which the program has never seen.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "materials/colour/ciede2000.h"
#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/maths/hash.h"
#include "tests/support/table_reader.h"

namespace rakelight::test {

using Sensitivities = std::array<Spectrum, 3>;

inline std::vector<Spectrum> curves_of_csv(const std::string& file) {
    const CsvTable table = read_csv(file);
    std::vector<Spectrum> curves(table.heading.size() - 1);
    for (std::size_t row = 0; row < table.rows.size(); ++row)
        for (std::size_t i = 0; i < curves.size(); ++i)
            curves[i].v.at(row) = std::stod(table.rows[row].at(i + 1));
    return curves;
}

/// Every other line of the files is a comment or 5 nm on, from 380 to 780 nm.
inline Sensitivities measured_camera() {
    const std::vector<Spectrum> c = curves_of_csv(RAKELIGHT_TEST_DATA "/camera_sensitivities.csv");
    return {c.at(0), c.at(1), c.at(2)};
}

/// A second camera, invented: broader green, blue further to the red, red with a second hump.
inline Sensitivities invented_camera() {
    const auto hump = [](double nm, double middle, double below, double above) {
        const double x = (nm - middle) / (nm < middle ? below : above);
        return std::exp(-x * x / 2);
    };
    Sensitivities c;
    for (int i = 0; i < kSpectrumCount; ++i) {
        const double nm = spectrum_wavelength_nm(i);
        c[0][i] = hump(nm, 605, 28, 35) + 0.12 * hump(nm, 450, 20, 20);
        c[1][i] = hump(nm, 535, 38, 42);
        c[2][i] = 0.9 * hump(nm, 460, 24, 30);
    }
    return c;
}

inline std::vector<Spectrum> evaluation_samples() {
    return curves_of_csv(RAKELIGHT_TEST_DATA "/ces99_reflectance_5nm.csv");
}

/// The chart at 5 nm, from the 10 nm of its source.
inline std::vector<Spectrum> chart_at_5_nm() {
    const CsvTable table = read_csv(RAKELIGHT_TEST_DATA "/chart24_reflectance.csv");
    std::vector<Spectrum> chart;
    for (std::size_t row = 0; row < table.rows.size(); ++row)
        chart.push_back(spectrum_from_table(400, 10, table.curve(row, "R", 400, 700, 10)));
    return chart;
}

/// What the three channels see of a reflectance, balanced so that a perfect white is 1 in each.
inline std::array<double, 3> camera_sees(const Sensitivities& camera, const Spectrum& light,
                                         const Spectrum& reflectance) {
    std::array<double, 3> rgb{};
    for (std::size_t c = 0; c < 3; ++c) {
        double seen = 0, white = 0;
        for (int i = 0; i < kSpectrumCount; ++i) {
            seen += camera[c][i] * light[i] * reflectance[i];
            white += camera[c][i] * light[i];
        }
        rgb[c] = seen / white;
    }
    return rgb;
}

/// A channel's light 0..1 as a pixel of a picture file.
struct PixelMaker {
    double noise = 0.01;     ///< relative standard deviation
    bool eight_bits = true;  ///< with the tone curve; else linear and not rounded
    double exponent = 1;     ///< of a tone curve that is not quite that of sRGB
    Rng rng{hash_text("simulated camera")};

    double encoded(double light) {
        const double normal =
            std::sqrt(-2 * std::log(1 - rng.unit())) * std::cos(2 * std::numbers::pi * rng.unit());
        const double noisy = std::max(0.0, light * (1 + noise * normal));
        if (!eight_bits) return noisy;
        const double curved = std::min(1.0, encode(LinearRgb{std::pow(noisy, exponent), 0, 0}).r);
        return std::round(255 * curved) / 255;
    }
    /// Mean of many such pixels, as a reader of pictures takes it.
    double read(double light, int pixels = 400) {
        double sum = 0;
        for (int i = 0; i < pixels; ++i) {
            const double e = encoded(light);
            sum += eight_bits ? decode(EncodedSrgb{e, 0, 0}).r : e;
        }
        return sum / pixels;
    }
};

/// CIEDE2000 between a band spectrum and the truth at 5 nm, under an illuminant.
inline double colour_off(const std::string& illuminant, const SampledSpectrum& found, const Spectrum& truth) {
    const Spectrum light = *find_illuminant(illuminant);
    const Xyz white = spectrum_to_xyz(light);
    const auto seen = integrate(tristimulus_weights(light), found);
    return ciede2000(xyz_to_lab({seen[0], seen[1], seen[2]}, white),
                     xyz_to_lab(spectrum_to_xyz(light, truth), white));
}

/// The value that a share of them do not pass.
inline double quantile(std::vector<double> values, double share) {
    std::sort(values.begin(), values.end());
    return values.at(static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5));
}

}  // namespace rakelight::test
