#include "scene/reading/stock/looks.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/picture_maker.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

std::string layout_with(const std::string& entry) {
    return "panel: {size: [600, 450]}\nfields: [{name: all, mix: mine}]\nstock:\n  mine: " + entry + "\n";
}

const Material& mine(const Layout& layout) {
    for (const Material& m : layout.stock)
        if (m.name == "mine") return m;
    throw std::logic_error("not in the layout's stock");
}

Material read_material(const std::string& entry) {
    return mine(read_layout_text(layout_with(entry), "f.yaml"));
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

// Two halves of a picture: the rectangle's own colour comes back as a piece of it looks, and the file is one
// that the layout depends on.
TEST(Looks, APatchOfAPictureIsItsColour) {
    const PictureMaker maker;
    maker.write("ebb.png", 40, 20, 3, [](int x, int) {
        return x < 20 ? PictureMaker::Pixel{0x7a, 0x2f, 0x3c} : PictureMaker::Pixel{0x30, 0x60, 0x70};
    });
    const auto path = (maker.folder() / "f.yaml").string();
    const auto read = [&](const std::string& looks) {
        return read_layout_text(layout_with("{like: ruby, looks: " + looks + "}"), path);
    };
    const Layout typed = read("\"#7a2f3c over white at 3 mm\"");
    const Layout seen = read("{picture: ebb.png, rectangle: [2, 1, 16, 18], over: white, thickness: 3 mm}");
    for (int b = 0; b < kBandCount; ++b)
        EXPECT_NEAR(mine(seen).absorption_per_mm[b], mine(typed).absorption_per_mm[b], 2e-4) << b;
    EXPECT_EQ(mine(seen).provenance, Provenance::guessed);
    ASSERT_EQ(seen.sources.files.size(), 1u);
    EXPECT_EQ(std::filesystem::path(seen.sources.files[0]).filename(), "ebb.png");
    // Half of each in linear light, whatever the gamma of the file.
    const Layout both = read_layout_text(
        layout_with("{like: slate, looks: {picture: ebb.png, rectangle: [10, 0, 20, 20]}}"), path);
    const auto mean = [](int a, int b) {
        return (decode({a / 255.0, 0, 0}).r + decode({b / 255.0, 0, 0}).r) / 2;
    };
    const LinearRgb half{mean(0x7a, 0x30), mean(0x2f, 0x60), mean(0x3c, 0x70)};
    const Lab lab = xyz_to_lab(linear_rgb_to_xyz(half), linear_rgb_to_xyz({1, 1, 1}));
    const Layout of_mean = read_layout_text(
        layout_with(fmt::format("{{like: slate, looks: \"Lab {:.4f},{:.4f},{:.4f}\"}}", lab.l, lab.a, lab.b)),
        path);
    for (int b = 0; b < kBandCount; ++b)
        EXPECT_NEAR(mine(both).reflectance[b], mine(of_mean).reflectance[b], 1e-5) << b;
}

TEST(Looks, WhatAPatchCannotBeIsSaidWithItsPlace) {
    const PictureMaker maker;
    maker.write("clear.png", 8, 8, 4, [](int, int) { return PictureMaker::Pixel{200, 0, 0, 0}; });
    maker.write("red.png", 8, 8, 3, [](int, int) { return PictureMaker::Pixel{140, 40, 50}; });
    const auto path = (maker.folder() / "f.yaml").string();
    for (const auto& [looks, expected] : std::vector<std::pair<std::string, std::string>>{
             {"{picture: red.png, rectangle: [4, 4, 5, 2]}", "expected one within it"},
             {"{picture: red.png, rectangle: [4, 4, 0, 2]}", "at least a pixel wide"},
             {"{picture: red.png, rectangle: [4, 4, 2]}", "rectangle"},
             {"{picture: red.png}", "rectangle"},
             {"{rectangle: [0, 0, 2, 2]}", "picture"},
             {"{picture: rde.png, rectangle: [0, 0, 2, 2]}", "no file"},
             {"{picture: clear.png, rectangle: [0, 0, 2, 2]}", "a part of the picture that is clear"},
             {"{picture: red.png, rectangle: [0, 0, 2, 2], over: whiet}", "did you mean white"},
             {"{picture: red.png, rectangle: [0, 0, 2, 2], thickness: 300}", "0.5 to 100 mm"},
         }) {
        const std::string said =
            refusal_of([&] { read_layout_text(layout_with("{like: ruby, looks: " + looks + "}"), path); });
        EXPECT_NE(said.find(expected), std::string::npos) << looks << ": " << said;
        EXPECT_NE(said.find("f.yaml:4:"), std::string::npos) << said;
    }
    const std::string said = refusal_of([&] {
        read_layout_text(
            layout_with("{like: slate, looks: {picture: red.png, rectangle: [0, 0, 2, 2], over: white}}"),
            path);
    });
    EXPECT_NE(said.find("an opaque material"), std::string::npos) << said;
}

}  // namespace
}  // namespace rakelight
