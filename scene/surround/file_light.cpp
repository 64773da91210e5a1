#include "scene/surround/file_light.h"

#include <fmt/format.h>

#include <cmath>
#include <sstream>
#include <stdexcept>
#include <string>

#include "materials/colour/colorimetry.h"
#include "scene/text/units.h"

namespace rakelight {

namespace {

[[noreturn]] void refuse(const std::string& found, const std::string& expected) {
    throw std::runtime_error(fmt::format("found {}, expected {}", found, expected));
}

template <std::size_t n>
std::array<double, n> numbers_of(const std::string& line) {
    std::array<double, n> numbers{};
    std::istringstream in(line.substr(line.find('=') + 1));
    in.imbue(std::locale::classic());
    for (double& number : numbers)
        if (!(in >> number) || !std::isfinite(number))
            refuse("the header line " + rakelight::quoted(line), fmt::format("{} numbers in it", n));
    return numbers;
}

}  // namespace

glm::dmat3 to_srgb_primaries(const PrimaryPlaces& places) {
    std::array<glm::dvec3, 4> xyz;
    for (std::size_t i = 0; i < 4; ++i) {
        const double x = places[2 * i], y = places[2 * i + 1];
        if (!(y > 1e-6) || !(x >= 0) || x + y > 1.0001)
            refuse(fmt::format("a primary or white at x {:g}, y {:g}", x, y), "a chromaticity");
        xyz[i] = {x / y, 1, (1 - x - y) / y};
    }
    const glm::dmat3 full(xyz[0], xyz[1], xyz[2]);
    if (std::abs(glm::determinant(full)) < 1e-9) refuse("primaries on one line", "a triangle of them");
    const glm::dvec3 amounts = glm::inverse(full) * xyz[3];
    if (!(amounts.x > 0) || !(amounts.y > 0) || !(amounts.z > 0))
        refuse("a white outside of its primaries", "one that they can make");
    glm::dmat3 to_srgb;
    for (int i = 0; i < 3; ++i) {
        const glm::dvec3 c = full[i] * amounts[i];
        const LinearRgb rgb = xyz_to_linear_rgb({c.x, c.y, c.z});
        to_srgb[i] = {rgb.r, rgb.g, rgb.b};
    }
    return to_srgb;
}

RadianceHeader read_radiance_header(std::string_view start) {
    RadianceHeader header;
    std::istringstream lines{std::string(start)};
    std::string line;
    while (std::getline(lines, line) && !line.empty() && line != "\r") {
        if (line.starts_with("FORMAT=") && line.find("rgbe") == std::string::npos)
            refuse("a Radiance picture of the kind " + rakelight::quoted(line.substr(7)), "32-bit_rle_rgbe");
        const bool exposure = line.starts_with("EXPOSURE=");
        if (exposure || line.starts_with("COLORCORR=")) {
            glm::dvec3 by(0);
            if (exposure) {
                by = glm::dvec3(numbers_of<1>(line)[0]);
            } else {
                const auto n = numbers_of<3>(line);
                by = {n[0], n[1], n[2]};
            }
            if (!(by.x > 0) || !(by.y > 0) || !(by.z > 0))
                refuse("the header line " + rakelight::quoted(line), "numbers above 0");
            header.factor /= by;
        }
        if (line.starts_with("PRIMARIES=")) header.to_srgb = to_srgb_primaries(numbers_of<8>(line));
    }
    return header;
}

}  // namespace rakelight
