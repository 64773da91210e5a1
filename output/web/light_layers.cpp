#include "output/web/light_layers.h"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "output/print/area_mean.h"

namespace rakelight {

namespace {

constexpr long kMostCode = 0x7fff;  // so that a zigzag difference fits into 16 bits

using Codes = std::vector<std::uint16_t>;

std::uint16_t code_of(double value, int steps_an_octave, int zero) {
    if (!(value > 0)) return 0;
    return static_cast<std::uint16_t>(
        std::clamp(std::lround(steps_an_octave * std::log2(value)) + zero, 1l, kMostCode));
}

double value_of(std::uint16_t code, int steps_an_octave, int zero) {
    return code == 0 ? 0 : std::exp2((code - zero) / static_cast<double>(steps_an_octave));
}

std::array<std::uint16_t, 3> codes_of(const glm::vec3& xyz) {
    const std::uint16_t y = code_of(xyz.y, kLuminanceStepsAnOctave, kLuminanceZero);
    if (y == 0) return {};
    // Ratios to the rounded luminance, or its rounding would shift X and Z as well.
    const double rounded = value_of(y, kLuminanceStepsAnOctave, kLuminanceZero);
    return {y, code_of(xyz.x / rounded, kRatioStepsAnOctave, kRatioZero),
            code_of(xyz.z / rounded, kRatioStepsAnOctave, kRatioZero)};
}

// Low bytes, then high bytes, of what the neighbours left and above do not foretell.
void append_differences(std::string& bytes, const Codes& codes, std::size_t width) {
    std::string high;
    high.reserve(codes.size());
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const bool has_left = i % width > 0;
        const bool has_above = i >= width;
        int foretold = 0;
        if (has_left && has_above)
            foretold = (codes[i - 1] + codes[i - width]) / 2;
        else if (has_left || has_above)
            foretold = has_left ? codes[i - 1] : codes[i - width];
        const int difference = codes[i] - foretold;
        const unsigned zigzag = difference < 0 ? 2u * static_cast<unsigned>(-difference) - 1
                                               : 2u * static_cast<unsigned>(difference);
        bytes += static_cast<char>(zigzag & 0xff);
        high += static_cast<char>(zigzag >> 8);
    }
    bytes += high;
}

std::string deflated(const std::string& bytes) {
    z_stream stream{};
    constexpr int kWindowBits = 15;
    constexpr int kMemory = 9;
    if (deflateInit2(&stream, Z_DEFAULT_COMPRESSION, Z_DEFLATED, kWindowBits, kMemory, Z_FILTERED) != Z_OK)
        throw std::runtime_error("zlib cannot start");
    std::string packed(deflateBound(&stream, bytes.size()), '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
    stream.avail_in = static_cast<uInt>(bytes.size());
    stream.next_out = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_out = static_cast<uInt>(packed.size());
    const bool whole = deflate(&stream, Z_FINISH) == Z_STREAM_END;
    packed.resize(stream.total_out);
    deflateEnd(&stream);
    if (!whole) throw std::runtime_error("zlib cannot pack a picture");
    return packed;
}

}  // namespace

Film shrink_light(const Film& film, int most_side_px) {
    const PixelSize old{film.width, film.height};
    const PixelSize size = fit_within(old, most_side_px);
    Film small;
    small.width = size.width;
    small.height = size.height;
    small.rows = {0, size.height};
    small.groups = film.groups;
    for (const auto& light : film.xyz) small.xyz.push_back(area_mean(light, old, size));
    // Pixels are independent: the variance of a mean is the mean of variances over how many there are.
    const double many =
        static_cast<double>(old.width) * old.height / (static_cast<double>(size.width) * size.height);
    std::vector<glm::vec3> variance;
    for (const float e : film.error) variance.emplace_back(e * e / static_cast<float>(many));
    if (!variance.empty())
        for (const glm::vec3& v : area_mean(variance, old, size)) small.error.push_back(std::sqrt(v.x));
    return small;
}

std::vector<LightLayer> pack_light(const Film& film) {
    std::vector<LightLayer> layers;
    for (std::size_t g = 0; g < film.groups.size(); ++g) {
        const auto& light = film.xyz[g];
        if (std::none_of(light.begin(), light.end(), [](const glm::vec3& c) { return c.y > 0; })) continue;
        std::array<Codes, 3> planes;
        for (Codes& plane : planes) plane.reserve(light.size());
        std::array<std::uint16_t, 3> last{};
        for (const glm::vec3& xyz : light) {
            std::array<std::uint16_t, 3> codes = codes_of(xyz);
            // The colour of no light means nothing: say what costs least.
            if (codes[0] == 0) codes = {0, last[1], last[2]};
            for (std::size_t k = 0; k < 3; ++k) planes[k].push_back(codes[k]);
            last = codes;
        }
        std::string bytes;
        bytes.reserve(6 * light.size());
        for (const Codes& plane : planes)
            append_differences(bytes, plane, static_cast<std::size_t>(film.width));
        layers.push_back({film.groups[g], deflated(bytes)});
    }
    return layers;
}

std::vector<glm::vec3> rounded_light(const std::vector<glm::vec3>& light) {
    std::vector<glm::vec3> rounded;
    rounded.reserve(light.size());
    for (const glm::vec3& xyz : light) {
        const auto codes = codes_of(xyz);
        const double y = value_of(codes[0], kLuminanceStepsAnOctave, kLuminanceZero);
        rounded.push_back({y * value_of(codes[1], kRatioStepsAnOctave, kRatioZero), y,
                           y * value_of(codes[2], kRatioStepsAnOctave, kRatioZero)});
    }
    return rounded;
}

}  // namespace rakelight
