#include "scene/mix/picture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/optics/fresnel.h"
#include "materials/stock/face_on.h"
#include "materials/stock/stock.h"
#include "scene/forms/side_wall.h"
#include "scene/geometry/region.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/picture_maker.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

using Pixel = PictureMaker::Pixel;

// A layout beside the pictures of a test.
Layout layout_of(const PictureMaker& maker, const std::string& field, const std::string& more = "") {
    return read_layout_text("panel: {size: [300, 200]}\n" + more +
                                "fields:\n  - {name: all, opus: regulatum, piece: 8, joint: 1, " + field +
                                "}\n",
                            (maker.folder() / "test.yaml").string());
}

std::string material_of(const Layout& layout, const Piece& piece) {
    return layout.stock[piece.material].name;
}

// The sRGB colour of an opaque material, so that a picture can show exactly what is in stock.
Pixel pixel_like(const char* name) {
    Layout layout;
    layout.stock = {*find_stock(name)};
    layout.tints = {Material()};
    const std::vector<std::uint32_t> all{0};
    const auto bytes = to_bytes(encode(xyz_to_linear_rgb(Palette(layout, Field(), all).of(0)[0].xyz)));
    return {bytes[0], bytes[1], bytes[2]};
}

// A bare stone of even reflectance 0.5 has L* = 116 (0.5)^(1/3) - 16 = 76.07 by definition (ISO/CIE 11664-4).
TEST(MixPicture, ColoursAsLaid) {
    Layout layout;
    Material stone;
    stone.name = "even";
    stone.reflectance = SampledSpectrum(0.5f);
    layout.stock = {stone, *find_stock("clear")};
    layout.tints = {Material()};
    layout.tints[0].reflectance = SampledSpectrum(0.4f);
    Field field;
    const std::vector<std::uint32_t> both{0, 1};
    Palette palette(layout, field, both);
    const std::vector<LaidColour>& colours = palette.of(0);
    EXPECT_NEAR(colours[0].lab.l, 76.07, 0.02);
    EXPECT_NEAR(colours[0].lab.a, 0, 0.02);
    EXPECT_NEAR(colours[0].lab.b, 0, 0.02);
    // Clear glass shows its bed through its face (Saunderson, JOSA 32, 1942), less what 6 mm of glass take
    // from light that crosses twice, obliquely at most four times as far: T^8 of its darkest 3 mm, 0.965.
    const double inside = diffuse_reflectance_inside(1.52);
    const double face = 1 - dielectric_reflectance(1.0, 1.52);
    const double through = face * (1 - inside) * 0.4 / (1 - inside * 0.4);
    EXPECT_LT(colours[1].xyz.y, through);
    EXPECT_GT(colours[1].xyz.y, through * std::pow(0.965, 8));
}

TEST(MixPicture, EachPieceTakesWhatLiesUnderIt) {
    const PictureMaker maker;
    const Pixel left = pixel_like("sky"), right = pixel_like("coral");
    maker.write("two.png", 30, 20, 3, [&](int x, int) { return x < 15 ? left : right; });
    const Layout layout = layout_of(maker, "mix: {picture: two.png, from: [slate, coral, foam-white, sky]}");
    const Laying laying = lay(layout);
    std::size_t far = 0;
    for (const Piece& piece : laying.pieces) {
        const double x = centroid(piece.outline_mm).x;
        if (std::abs(x - 150) < 6) continue;
        ++far;
        EXPECT_EQ(material_of(layout, piece), x < 150 ? "sky" : "coral");
    }
    EXPECT_GT(far, 500u);
    ASSERT_GE(laying.notes.size(), 2u);
    EXPECT_NE(laying.notes[0].find("after two.png"), std::string::npos);
}

// Glass of 8 mm beside black grout is deeper than the same glass in a large pane. A picture in the colour in
// which such pieces are rendered is met, but for the 8 bits of the picture and the hand's cutting (a step of
// the width is 9 %); the glass is one whose colour sRGB can show.
TEST(MixPicture, ColoursAreThoseOfSmallPiecesBesideTheirGrout) {
    const PictureMaker maker;
    maker.write("even.png", 3, 2, 3, [](int, int) { return Pixel{120, 120, 120}; });
    const auto layout_with = [&](const char* file) {
        return layout_of(maker, std::string("grout: black, mix: {picture: ") + file + ", from: [aqua]}");
    };
    const Layout layout = layout_with("even.png");
    const Field& field = layout.fields[0];
    const Material& glass = layout.stock[field.picture->from[0]];
    InterfaceTables tables;
    const auto seen = [&](double edge_per_mm) {
        const double thickness = static_cast<double>(glass.thickness_mm);
        const SampledSpectrum reflectance =
            face_on_reflectance(glass, thickness, layout.tints[field.bed].reflectance, 1, tables,
                                side_wall(layout.tints, field, edge_per_mm, thickness, glass));
        const auto [x, y, z] = integrate(tristimulus_weights(*find_illuminant("D65")), reflectance);
        return Xyz{x, y, z};
    };
    const auto bytes = to_bytes(encode(xyz_to_linear_rgb(seen(edge_per_mm(8, 8)))));
    maker.write("glass.png", 3, 2, 3, [&](int, int) { return Pixel{bytes[0], bytes[1], bytes[2]}; });
    const Layout wanted = layout_with("glass.png");
    auto pieces = lay(wanted).pieces;
    const std::size_t limits[] = {~std::size_t{0}};
    EXPECT_LT(mix_picture(wanted, wanted.fields[0], limits, 1, pieces).mean, 2);
    const Lab small = xyz_to_lab(seen(edge_per_mm(8, 8)), {0.9505, 1, 1.089}),
              pane = xyz_to_lab(seen(0), {0.9505, 1, 1.089});
    EXPECT_GT(ciede2000(small, pane), 5);  // that it matters
}

TEST(MixPicture, LimitsHoldAndTheMostToLoseKeepIt) {
    const PictureMaker maker;
    const Pixel coral = pixel_like("coral"), white = pixel_like("foam-white");
    // Coral on the left, fading into white: those that need coral least do without first.
    maker.write("fade.png", 300, 200, 3, [&](int x, int) {
        Pixel p(3);
        for (std::size_t c = 0; c < 3; ++c)
            p[c] = static_cast<std::uint8_t>(coral[c] + (white[c] - coral[c]) * x / 300);
        return p;
    });
    const Layout layout = layout_of(maker, "mix: {picture: fade.png, from: [my-coral, foam-white]}",
                                    "stock: {my-coral: {like: coral, on hand: 120}}\n");
    const Laying laying = lay(layout);
    double farthest_coral = 0, nearest_white = 1e9;
    std::size_t corals = 0;
    for (const Piece& piece : laying.pieces) {
        const double x = centroid(piece.outline_mm).x;
        if (material_of(layout, piece) == "my-coral") {
            ++corals;
            farthest_coral = std::max(farthest_coral, x);
        } else {
            nearest_white = std::min(nearest_white, x);
        }
    }
    EXPECT_EQ(corals, 120u);
    EXPECT_LT(farthest_coral, nearest_white + 10);  // a column of pieces
    EXPECT_NE(laying.notes.back().find("120 of the 120 pieces of my-coral"), std::string::npos);
    // The field's own limit, under diffusion too.
    const Layout own = layout_of(
        maker,
        "mix: {picture: fade.png, from: [coral, foam-white], at most: {coral: 50}, error diffusion: 1}");
    const auto pieces = lay(own).pieces;
    EXPECT_EQ(std::count_if(pieces.begin(), pieces.end(),
                            [&](const Piece& p) { return material_of(own, p) == "coral"; }),
              50);
}

// An even grey between two greys of the stock: nearest colours give one of them everywhere, diffusion the two
// in the share whose light is the picture's, (g - a) / (b - a).
TEST(MixPicture, DiffusionKeepsTheLight) {
    const PictureMaker maker;
    maker.write("even.png", 3, 2, 3, [](int, int) { return Pixel{120, 120, 120}; });
    Layout layout = layout_of(maker, "mix: {picture: even.png, from: [jet, limestone], error diffusion: 1}");
    Palette palette(layout, layout.fields[0], layout.fields[0].picture->from);
    const std::vector<LaidColour>& colours = palette.of(0);
    const double grey = linear_rgb_to_xyz(decode(from_bytes({120, 120, 120}))).y;
    const double wanted = (grey - colours[0].xyz.y) / (colours[1].xyz.y - colours[0].xyz.y);
    const auto pieces = lay(layout).pieces;
    const auto n = static_cast<double>(pieces.size());
    const auto light = static_cast<double>(std::count_if(
        pieces.begin(), pieces.end(), [&](const Piece& p) { return material_of(layout, p) == "limestone"; }));
    // Half the standard deviation of pure chance (binomial).
    EXPECT_NEAR(light, wanted * n, 0.5 * std::sqrt(n * wanted * (1 - wanted)) + 0.01 * n);
    layout.fields[0].picture->diffusion = 0;
    const auto plain = lay(layout).pieces;
    for (const Piece& p : plain) EXPECT_EQ(p.material, plain[0].material);
}

TEST(MixPicture, SaysWhatIsOutOfReach) {
    const PictureMaker maker;
    const Pixel grey = pixel_like("storm-grey");
    // A patch of green laser-light in the upper right corner, 60 by 40 mm: 4 % of the panel.
    maker.write("green.png", 300, 200, 3, [&](int x, int y) {
        return x >= 240 && y < 40 ? Pixel{0, 255, 0} : grey;
    });
    const Layout layout = layout_of(maker, "mix: {picture: green.png, from: [storm-grey, foam-white]}");
    auto pieces = lay(layout).pieces;
    const std::size_t limits[] = {~std::size_t{0}, ~std::size_t{0}};
    const PictureReach reach = mix_picture(layout, layout.fields[0], limits, 1, pieces);
    EXPECT_EQ(reach.pieces, pieces.size());
    EXPECT_NEAR(reach.off_by_10, 0.04, 0.012);  // a row and a column of pieces lie half in it
    EXPECT_GT(reach.worst, 30);
    EXPECT_GT(reach.worst_at_mm.x, 240);
    EXPECT_GT(reach.worst_at_mm.y, 160);
    const auto lines = describe(reach, layout.fields[0], layout);
    EXPECT_TRUE(std::any_of(lines.begin(), lines.end(),
                            [](const std::string& l) { return l.find("#00ff00") != std::string::npos; }));
}

TEST(MixPicture, WhatThePictureDoesNotCover) {
    const PictureMaker maker;
    maker.write("small.png", 30, 20, 3, [](int, int) { return Pixel{200, 120, 100}; });
    const std::string mix = "mix: {picture: small.png, from: [coral], place: [0, 0, 150]";
    EXPECT_THROW(lay(layout_of(maker, mix + "}")), LayoutError);
    const Layout layout = layout_of(maker, mix + ", elsewhere: slate}");
    for (const Piece& piece : lay(layout).pieces) {
        const glm::dvec2 at = centroid(piece.outline_mm);
        if (std::abs(at.x - 150) < 5 || std::abs(at.y - 100) < 5) continue;
        EXPECT_EQ(material_of(layout, piece), at.x < 150 && at.y < 100 ? "coral" : "slate");
    }
}

TEST(MixPicture, StockThatRunsOut) {
    const PictureMaker maker;
    maker.write("grey.png", 3, 2, 3, [](int, int) { return Pixel{120, 120, 120}; });
    const auto why = [](const Layout& layout) { return refusal_of([&] { lay(layout); }); };
    const std::string few = "stock: {few: {like: coral, on hand: 9}, gold: {like: slate, on hand: 5}}\n";
    EXPECT_NE(why(layout_of(maker, "mix: {picture: grey.png, from: [few, gold]}", few)).find("at most 14"),
              std::string::npos);
    const std::string even = why(layout_of(maker, "mix: {few: 20 %, slate: 80 %}", few));
    EXPECT_NE(even.find("test.yaml:4:59: fields[1].mix: found "), std::string::npos) << even;
    EXPECT_NE(even.find("of few wanted up to this field, expected at most the 9 in stock"),
              std::string::npos);
    EXPECT_NE(why(layout_of(maker, "mix: slate, accents: {material: few, count: 10}", few)).find("found 10"),
              std::string::npos);
    EXPECT_EQ(why(layout_of(maker, "mix: slate, accents: {material: few, count: 9}", few)), "");
    // Accents come out of the same box as the picture's pieces.
    const Layout both = layout_of(
        maker, "mix: {picture: grey.png, from: [few, slate]}, accents: {material: few, count: 7}", few);
    const auto pieces = lay(both).pieces;
    EXPECT_LE(std::count_if(pieces.begin(), pieces.end(),
                            [&](const Piece& p) { return material_of(both, p) == "few"; }),
              9);
}

}  // namespace
}  // namespace rakelight
