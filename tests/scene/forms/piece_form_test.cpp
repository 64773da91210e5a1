#include "scene/forms/piece_form.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "scene/forms/forms.h"
#include "scene/geometry/region.h"
#include "scene/geometry/solid.h"
#include "scene/model/form_words.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"
#include "tests/support/mesh_checks.h"

namespace rakelight {
namespace {

constexpr double kPi = 3.14159265358979;

Piece of(PieceForm form, Ring outline, double thickness_mm, std::uint64_t seed) {
    Piece p;
    p.outline_mm = std::move(outline);
    p.thickness_mm = thickness_mm;
    p.top_mm = thickness_mm + 2;
    p.form = form;
    p.seed = seed;
    return p;
}

Ring rectangle(double length, double width) {
    return {{0, 0}, {length, 0}, {length, width}, {0, width}};
}

// |x/a|^n + |y/b|^n = 1
Ring superellipse(double a, double b, double n, int points) {
    Ring ring;
    for (int i = 0; i < points; ++i) {
        const double t = 2 * kPi * i / points, c = std::cos(t), s = std::sin(t);
        ring.emplace_back(a * std::copysign(std::pow(std::abs(c), 2 / n), c),
                          b * std::copysign(std::pow(std::abs(s), 2 / n), s));
    }
    return ring;
}

PieceForm form_called(const std::string& word) {
    const auto at = std::find(form_words().begin(), form_words().end(), word);
    return static_cast<PieceForm>(at - form_words().begin());
}

using FormAndStuff = std::tuple<std::string, std::string>;
class EveryForm : public ::testing::TestWithParam<FormAndStuff> {};

TEST_P(EveryForm, ClosedOutwardAndWithinItsOutline) {
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    const auto& [word, stuff] = GetParam();
    const PieceForm form = form_called(word);
    const Material& material = stuff_called(layout, stuff);
    const Ring hollow{{0, 0}, {12, 0}, {9, 4}, {12, 10}, {0, 10}}, sliver{{0, 0}, {14, 0}, {13, 3}, {1, 3}};
    for (const Ring& outline : {rectangle(9, 7.5), rectangle(30, 22), hollow, sliver})
        for (std::uint64_t seed = 1; seed <= 12; ++seed) {
            Piece piece = of(form, outline, 9, seed);
            piece.tilt_rad = {0.06, -0.04};
            if (form == PieceForm::chunk) {
                piece.top_mm += chunk_rise_mm(piece);
                piece.thickness_mm += chunk_rise_mm(piece);
            }
            const Mesh mesh = form_piece(piece, material);
            expect_closed(mesh);
            expect_good_normals(mesh);
            EXPECT_GT(volume_mm3(mesh), 0.25 * area_mm2(outline) * 9);
            const Region kept = grow(region_of(outline), 2e-3);
            double low = 1e9;
            for (const auto& p : mesh.positions_mm) {
                ASSERT_TRUE(contains(kept, glm::dvec2(p)));
                low = std::min(low, static_cast<double>(p.z));
            }
            EXPECT_NEAR(low, 2,
                        form == PieceForm::pebble ? 1.0 : 1e-4);  // a tilted pebble rests on its belly
        }
}

INSTANTIATE_TEST_SUITE_P(All, EveryForm,
                         ::testing::Combine(::testing::ValuesIn(form_words().begin() + 1, form_words().end()),
                                            ::testing::Values("glass", "slate", "pumice", "slag")),
                         [](const auto& test) {
                             std::string name = std::get<0>(test.param) + '_' + std::get<1>(test.param);
                             std::replace(name.begin(), name.end(), ' ', '_');
                             return name;
                         });

TEST(PieceForm, SawnBoxHasTheVolumeOfABoxLessItsArrises) {
    // An edge rounded to radius r takes (1 - pi/4) r^2 off each millimetre, a flat chamfer r^2 / 2: the mesh
    // lies between. Corners eased by a parabola over 0.4 mm lose 0.4^2 / 6 each to at most 0.4^2 / 2.
    Material glass = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[0];
    glass.ripple_deg = 0;
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        const double l = 14, w = 10, t = 6, round = 2 * (l + w);
        // The face of a sheet is domed by 0.012 of its half size h; over the rectangle that takes off
        // 0.012 / h * (mean of r^2) on the mean.
        const double h = 2 * l * w / round, dome = 0.012 / h * (l * l + w * w) / 12;
        const double box = l * w * (t - dome);
        const double volume = volume_mm3(form_piece(of(PieceForm::sawn, rectangle(l, w), t, seed), glass));
        EXPECT_LT(volume, box - (1 - kPi / 4) * 0.2 * 0.2 * round - 4 * t * 0.4 * 0.4 / 6 + 0.5);
        EXPECT_GT(volume, box - 0.5 * 0.4 * 0.4 * round - 4 * t * 0.4 * 0.4 / 2 - 0.5);
    }
}

TEST(PieceForm, PebbleIsASuperellipsoid) {
    // Volume of |s|^n + |z/c|^n = 1 over a plan of area A: A c * integral of (1 - |z|^n)^(2/n) over [-1, 1]
    // = 2 A c G(1 + 1/n) G(1 + 2/n) / G(1 + 3/n), G the gamma function; A of a superellipse of power n is
    // 4 a b G(1 + 1/n)^2 / G(1 + 2/n) (Barr 1981; Abramowitz and Stegun 6.2).
    const double n = static_cast<double>(kPebblePower), a = 11, b = 8, c = 6;
    const double g1 = std::tgamma(1 + 1 / n), g2 = std::tgamma(1 + 2 / n), g3 = std::tgamma(1 + 3 / n);
    const double plan = 4 * a * b * g1 * g1 / g2, volume = 2 * plan * c * g1 * g2 / g3;
    const Material stone = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[1];
    const Mesh mesh = form_piece(of(PieceForm::pebble, superellipse(a, b, n, 64), 2 * c, 3), stone);
    EXPECT_NEAR(volume_mm3(mesh), volume, 0.02 * volume);  // facets lie inside
    EXPECT_LT(volume_mm3(mesh), volume);
}

TEST(PieceForm, RivenFacesStepHalfToThreeMillimetres) {
    // Peak to valley 0.5 to 3 mm, facets 5 to 20 degrees: common practice, no published source.
    const Material slate = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[1];
    int good = 0, slanted = 0, points = 0;
    constexpr int kFaces = 300;
    for (std::uint64_t seed = 1; seed <= kFaces; ++seed) {
        const FaceRelief relief(FaceKind::riven, slate, 9, seed);
        float low = 1e9f, high = -1e9f;
        for (float x = -7; x <= 7; x += 0.5f)
            for (float y = -7; y <= 7; y += 0.5f) {
                const Relief r = relief.at({x, y});
                low = std::min(low, r.height_mm);
                high = std::max(high, r.height_mm);
                const float deg = glm::degrees(std::atan(glm::length(r.slope)));
                slanted += deg > 3 && deg < 25;
                ++points;
            }
        good += high - low > 0.5f && high - low < 3.2f;
    }
    EXPECT_GT(good, kFaces * 9 / 10);
    EXPECT_GT(slanted, points * 6 / 10);
}

TEST(PieceForm, LongAndLargeFacesStayInTheirPlane) {
    // Peak to valley of a riven face 0.5 to 3 mm however long it is, of a worn one less than its wear: common
    // practice, no published source.
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    const Ring hook{{0, 0}, {100, 0}, {100, 6}, {8, 6}, {6, 100}, {0, 100}};
    for (const auto form : {PieceForm::sawn, PieceForm::riven, PieceForm::fused_edge, PieceForm::tumbled})
        for (const Ring& outline : {rectangle(100, 100), rectangle(120, 8), hook})
            for (std::uint64_t seed = 1; seed <= 8; ++seed) {
                const Piece piece = of(form, outline, 10, seed);
                const Mesh mesh = form_piece(piece, layout.stock[form == PieceForm::riven ? 1 : 0]);
                expect_closed(mesh);
                double low = 1e9, high = -1e9;
                for (std::size_t i = 0; i < mesh.normals.size(); ++i)
                    if (mesh.normals[i].z > 0.85f) {  // of the face, not of its edge
                        low = std::min(low, static_cast<double>(mesh.positions_mm[i].z));
                        high = std::max(high, static_cast<double>(mesh.positions_mm[i].z));
                    }
                EXPECT_LT(high - piece.top_mm, 2.2);
                EXPECT_LT(piece.top_mm - low, form == PieceForm::tumbled ? 5.5 : 2.8);
            }
}

TEST(PieceForm, LargeFacesAreAsFineAsTheirRelief) {
    // A wave needs more than two points a period (Shannon 1949), half of those that make most of the slope
    // being 3 mm on slate and half the ripple on glass. Along the longest side of a triangle its third corner
    // lies in between, so that its points are no farther apart than its second longest side, however skewed
    // it is. Rings of the face halve their points where these have drawn together to 0.72 of a step: 1.44
    // steps at most.
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    for (const auto& [form, stuff, most_mm] :
         {std::tuple{PieceForm::riven, 1, 3.0f}, {PieceForm::sawn, 0, layout.stock[0].ripple_size_mm / 2}}) {
        const Mesh mesh =
            form_piece(of(form, rectangle(100, 80), 8, 4), layout.stock[static_cast<std::size_t>(stuff)]);
        float longest = 0;
        for (const auto& t : mesh.triangles) {
            std::array<float, 3> sides{};
            for (int k = 0; k < 3; ++k) {
                const auto a = t[k], b = t[(k + 1) % 3];
                if (mesh.normals[a].z < 0.5f || mesh.normals[b].z < 0.5f) continue;
                sides[static_cast<std::size_t>(k)] =
                    glm::distance(mesh.positions_mm[a], mesh.positions_mm[b]);
            }
            std::sort(sides.begin(), sides.end());
            longest = std::max(longest, sides[1]);
        }
        EXPECT_LT(longest, 1.45f * most_mm);
        EXPECT_GT(longest, 0.5f * most_mm);  // nor is it fine beyond need
        EXPECT_LT(mesh.triangles.size(), 60'000u);
    }
}

TEST(PieceForm, APebbleHasNoRidges) {
    // However square its outline: where two triangles of the upper half meet, they bend by little, as on an
    // ellipsoid of these rings (a turn of pi / 18 a ring, twice that over the blunt ends).
    const Material stone = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[1];
    const Mesh mesh = form_piece(of(PieceForm::pebble, rectangle(26, 10), 9, 3), stone);
    std::map<std::pair<std::uint32_t, std::uint32_t>, glm::vec3> side;
    float sharpest = 0;
    for (const auto& t : mesh.triangles) {
        const glm::vec3 a = mesh.positions_mm[t.x], b = mesh.positions_mm[t.y], c = mesh.positions_mm[t.z];
        if (std::min({a.z, b.z, c.z}) < 2 + 0.8f * 9) continue;
        const glm::vec3 n = glm::normalize(glm::cross(b - a, c - a));
        for (int k = 0; k < 3; ++k) side[{t[k], t[(k + 1) % 3]}] = n;
    }
    for (const auto& [edge, n] : side)
        if (const auto other = side.find({edge.second, edge.first}); other != side.end())
            sharpest = std::max(sharpest, std::acos(std::min(1.0f, glm::dot(n, other->second))));
    EXPECT_LT(glm::degrees(sharpest), 20);
}

// A flat mirror: with neither dome nor ripple the slope is that of the plane everywhere.
TEST(PieceForm, NoDomeAndNoRippleIsFlat) {
    Material glass = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[0];
    glass.ripple_deg = 0;
    const auto steepest = [&](std::optional<double> dome_mm) {
        Piece piece = of(PieceForm::sawn, rectangle(10, 10), 6, 2);
        piece.dome_mm = dome_mm;
        const Mesh mesh = form_piece(piece, glass);
        float most = 0;
        for (std::size_t i = 0; i < mesh.positions_mm.size(); ++i) {
            const glm::vec2 p = glm::abs(glm::vec2(mesh.positions_mm[i]) - 5.0f);
            if (mesh.normals[i].z > 0.9f && std::max(p.x, p.y) < 4)
                most = std::max(most, glm::length(glm::vec2(mesh.normals[i])));
        }
        return most;
    };
    EXPECT_LT(steepest(0), 1e-6f);
    // The usual bulge: 1.2 % of 5 mm falls by 2 x 0.06 / 5^2 for every millimetre.
    EXPECT_GT(steepest(std::nullopt), 2 * 0.06f / 25 * 3);
}

TEST(PieceForm, DomeStandsAboveTheMiddlesOfTheSides) {
    Material glass = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[0];
    glass.ripple_deg = 0;
    for (const double dome : {0.5, 1.5}) {
        FaceRelief relief(FaceKind::sawn, glass, 5, 1), flat(FaceKind::sawn, glass, 5, 1);
        relief.set_dome(static_cast<float>(dome));
        const auto lift = [&](const glm::vec2& p) {
            return static_cast<double>(relief.at(p).height_mm - flat.at(p).height_mm);
        };
        EXPECT_NEAR(lift({0, 0}) - lift({5, 0}), dome, 1e-5);
        EXPECT_NEAR(lift({0, 0}) - lift({0, 2.5}), dome / 4, 1e-5);  // a paraboloid
        Piece piece = of(PieceForm::sawn, rectangle(10, 10), 6, 2);
        piece.dome_mm = 0;
        const double before = volume_mm3(form_piece(piece, glass));
        piece.dome_mm = dome;
        // Mean of (r / 5)^2 over a square of side 10 is 2/3.
        EXPECT_NEAR(before - volume_mm3(form_piece(piece, glass)), 100 * dome * 2 / 3, 4 * dome);
    }
}

TEST(PieceForm, ChunksRiseFiveToThirtyAndReachTheirTop) {
    const Material pumice = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[2];
    for (const double side : {10.0, 24.0, 70.0})
        for (std::uint64_t seed = 1; seed <= 10; ++seed) {
            Piece piece = of(PieceForm::chunk, rectangle(side, 0.8 * side), 12, seed);
            const double rise = chunk_rise_mm(piece);
            EXPECT_GE(rise, 5);
            EXPECT_LE(rise, 30);
            piece.thickness_mm += rise;
            piece.top_mm += rise;
            double high = 0, rim = 0;
            for (const auto& p : form_piece(piece, pumice).positions_mm) {
                high = std::max(high, static_cast<double>(p.z));
                if (p.x < 0.06 * side) rim = std::max(rim, static_cast<double>(p.z));
            }
            EXPECT_LE(high, piece.top_mm + 1e-3);
            EXPECT_GT(high, piece.top_mm - 0.4 * rise);
            EXPECT_LT(rim, piece.top_mm - 0.2 * rise);  // it falls towards its neighbours
        }
}

}  // namespace
}  // namespace rakelight
