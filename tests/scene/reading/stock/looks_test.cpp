#include "scene/reading/stock/looks.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

std::string layout_with(const std::string& entry) {
    return "panel: {size: [600, 450]}\nfields: [{name: all, mix: mine}]\nstock:\n  mine: " + entry + "\n";
}

Material read_material(const std::string& entry) {
    for (const Material& m : read_layout_text(layout_with(entry), "f.yaml").stock)
        if (m.name == "mine") return m;
    throw std::logic_error("not in the layout's stock");
}

Lab seen_d65(const Material& m, double thickness_mm, const SampledSpectrum& behind) {
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
    const auto lab = [&](const SampledSpectrum& s) {
        const auto v = integrate(weights, s), w = integrate(weights, SampledSpectrum(1));
        return xyz_to_lab({v[0], v[1], v[2]}, {w[0], w[1], w[2]});
    };
    InterfaceTables faces;
    return lab(face_on_reflectance(m, thickness_mm, behind, 1, faces));
}

Lab srgb(std::uint8_t r, std::uint8_t g, std::uint8_t b) {  // IEC 61966-2-1
    return xyz_to_lab(linear_rgb_to_xyz(decode(from_bytes({r, g, b}))), linear_rgb_to_xyz({1, 1, 1}));
}

TEST(Looks, AsAskedUnderD65) {
    const SampledSpectrum white = find_tint("white")->reflectance;
    const Material wine = read_material("{like: ruby, looks: \"#7a2f3c over white at 3 mm\"}");
    EXPECT_LT(ciede2000(seen_d65(wine, 3, white), srgb(0x7a, 0x2f, 0x3c)), 0.5);
    EXPECT_EQ(wine.provenance, Provenance::guessed);
    EXPECT_EQ(wine.index, find_stock("ruby")->index);
    const Material rust = read_material("{like: kelp-amber, looks: \"Lab 45,30,40 over 60 % at 4 mm\"}");
    EXPECT_LT(ciede2000(seen_d65(rust, 4, SampledSpectrum(0.6f)), Lab{45, 30, 40}), 0.5);
    const Material thick = read_material("{like: aqua, thickness: 5, looks: \"5a8f86\"}");  // white, 5 mm
    EXPECT_LT(ciede2000(seen_d65(thick, 5, white), srgb(0x5a, 0x8f, 0x86)), 0.5);
    const Material wall = read_material("{like: slate, looks: \"#8a7f70\"}");
    EXPECT_LT(ciede2000(seen_d65(wall, 6, {}), srgb(0x8a, 0x7f, 0x70)), 0.5);
}

TEST(Looks, RefusesWithPlaceAndReason) {
    const auto refusal = [](const std::string& entry) {
        return refusal_of([&] { read_layout_text(layout_with(entry), "f.yaml"); });
    };
    for (const auto& [entry, expected] : std::vector<std::pair<std::string, std::string>>{
             {"{like: ruby, looks: \"#7a2f3\"}", "expected a colour such as"},
             {"{like: ruby, looks: \"Lab 45,10\"}", "expected a colour such as"},
             {"{like: ruby, looks: \"#7a2f3c over whiet at 3 mm\"}", "did you mean white"},
             {"{like: ruby, looks: \"#7a2f3c over white at 300 mm\"}", "expected 0.5 to 100 mm"},
             {"{like: slate, looks: \"#7a2f3c over white\"}", "expected the colour alone"},
             {"{like: ruby, looks: \"#fefefe over 20 %\"}", "the nearest is #"},
             {"{kind: glass, looks: \"#7a2f3c\"}", "expected looks with like"},
             {"{like: slate, reflectance: 20 %, looks: \"#7a2f3c\"}", "found both looks and reflectance"},
             {"{like: ruby, transmittance at 3 mm: 20 %, looks: \"#7a2f3c\"}",
              "found both looks and transmittance"},
         }) {
        const std::string said = refusal(entry);
        EXPECT_NE(said.find(expected), std::string::npos) << entry << ": " << said;
        EXPECT_NE(said.find("f.yaml:4:"), std::string::npos) << said;
        EXPECT_NE(said.find("stock.mine"), std::string::npos) << said;
    }
}

}  // namespace
}  // namespace rakelight
