#include "output/stock/match_target.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <string>

#include "materials/stock/face_on.h"
#include "output/system/errors.h"
#include "scene/text/units.h"

namespace rakelight {

Lab parse_lab(std::string_view text) {
    std::array<double, 3> v{};
    std::string_view rest = text;
    for (std::size_t i = 0; i < v.size(); ++i) {
        const std::size_t comma = i < 2 ? std::min(rest.find(','), rest.size()) : rest.size();
        std::string_view word = rest.substr(0, comma);
        while (word.starts_with(' ')) word.remove_prefix(1);
        while (word.ends_with(' ')) word.remove_suffix(1);
        const Measure number = read_measure(word, Quantity::plain);
        const double low = i == 0 ? 0 : -200, high = i == 0 ? 100 : 200;
        if (!number.ok() || number.value < low || number.value > high)
            throw RequestError(fmt::format(
                "--lab: found {}, expected L,a,b such as 45,10,-20 with L 0 to 100", quoted(text)));
        v[i] = number.value;
        rest.remove_prefix(std::min(comma + 1, rest.size()));
    }
    return {v[0], v[1], v[2]};
}

Lab parse_srgb(std::string_view text) {
    std::string_view digits = text;
    if (digits.starts_with('#')) digits.remove_prefix(1);
    std::uint32_t value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
    if (digits.size() != 6 || error != std::errc() || end != digits.data() + digits.size())
        throw RequestError(
            fmt::format("--srgb: found {}, expected six hexadecimal digits such as 336699", quoted(text)));
    const auto byte = [&](int shift) { return static_cast<std::uint8_t>(value >> shift & 0xff); };
    const LinearRgb rgb = decode(from_bytes({byte(16), byte(8), byte(0)}));
    return xyz_to_lab(linear_rgb_to_xyz(rgb), linear_rgb_to_xyz({1, 1, 1}));
}

SampledSpectrum seen_as_laid(const Material& material, double thickness_mm, const SampledSpectrum& bed,
                             const SideWall& side) {
    InterfaceTables faces;
    return face_on_reflectance(material, thickness_mm, bed, 1, faces, side);
}

}  // namespace rakelight
