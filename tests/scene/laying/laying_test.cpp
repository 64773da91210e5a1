#include "scene/laying/laying.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <string>

#include "materials/maths/hash.h"
#include "scene/forms/forms.h"
#include "scene/forms/joint_surface.h"
#include "scene/geometry/region.h"
#include "scene/geometry/solid.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/opus/opera.h"
#include "scene/text/diagnostics.h"
#include "tests/support/laying_samples.h"
#include "tests/support/mesh_checks.h"
#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

Layout with_figure() {
    Layout layout = sample_layout(Opus::musivum, 12, 10, 1.5);
    Field& figure =
        add_figure(layout, smooth_stroke({{200, 120}, {330, 90}, {420, 200}, {330, 300}, {190, 260}}, true));
    figure.opus = Opus::vermiculatum;
    figure.guides.clear();
    figure.piece_length_mm = 9;
    figure.piece_width_mm = 8;
    figure.mix = {{kGlass, 0.5}, {kSlate, 0.5}};
    return layout;
}

bool same(const Piece& a, const Piece& b) {
    return a.outline_mm == b.outline_mm && a.material == b.material && a.top_mm == b.top_mm &&
           a.tilt_rad == b.tilt_rad && a.seed == b.seed;
}

std::vector<Piece> of_field(const Laying& laying, std::uint32_t field) {
    std::vector<Piece> out;
    for (const auto& p : laying.pieces)
        if (p.field == field) out.push_back(p);
    return out;
}

TEST(Laying, ChangedFieldLeavesTheOthers) {
    const Layout layout = with_figure();
    Layout changed = layout;
    changed.fields[1].piece_length_mm = 15;
    changed.fields[1].mix = {{kSlate, 1}};
    changed.fields[1].thickness_mm = 6;
    const auto before = of_field(lay(layout), 0);
    const auto after = of_field(lay(changed), 0);
    ASSERT_EQ(before.size(), after.size());
    ASSERT_GT(before.size(), 100u);
    for (std::size_t i = 0; i < before.size(); ++i) EXPECT_TRUE(same(before[i], after[i]));
}

TEST(Laying, SameLayoutSamePieces) {
    const Laying a = lay(with_figure()), b = lay(with_figure());
    ASSERT_EQ(a.pieces.size(), b.pieces.size());
    for (std::size_t i = 0; i < a.pieces.size(); ++i) EXPECT_TRUE(same(a.pieces[i], b.pieces[i]));
    Layout other = with_figure();
    other.panel.seed = 8;
    EXPECT_FALSE(same(a.pieces[0], lay(other).pieces[0]));
}

TEST(Laying, FieldsKeepAJointApart) {
    const Laying laying = lay(with_figure());
    const auto figure = of_field(laying, 0), ground = of_field(laying, 1);
    double sum = 0;
    int count = 0;
    for (const auto& a : figure)
        for (std::size_t k = 0; k < a.outline_mm.size(); ++k) {
            const glm::dvec2 p = (a.outline_mm[k] + a.outline_mm[(k + 1) % a.outline_mm.size()]) / 2.0;
            double nearest = 1e9;
            for (const auto& b : ground)
                for (std::size_t e = 0; e < b.outline_mm.size(); ++e)
                    nearest = std::min(nearest, distance_mm(p, b.outline_mm[e],
                                                            b.outline_mm[(e + 1) % b.outline_mm.size()]));
            if (nearest > 4) continue;
            sum += nearest;
            ++count;
        }
    ASSERT_GT(count, 40);
    EXPECT_NEAR(sum / count, 1.5, 0.25 * 1.5);
}

TEST(Laying, FacesAreLevelledAndTiltedAsAsked) {
    Layout layout = with_figure();
    for (auto& field : layout.fields) {
        field.tilt_deg = 2;
        field.lippage_mm = 0.4;
    }
    const Laying laying = lay(layout);
    const double plane = face_plane_mm(layout);
    EXPECT_DOUBLE_EQ(plane, 2 + 8);  // bed and the thickest piece, slate
    double mean = 0, spread = 0, tilt = 0;
    const auto n = static_cast<double>(laying.pieces.size());
    for (const auto& p : laying.pieces) {
        mean += (p.top_mm - plane) / n;
        spread += (p.top_mm - plane) * (p.top_mm - plane) / n;
        tilt += (p.tilt_rad.x * p.tilt_rad.x + p.tilt_rad.y * p.tilt_rad.y) / (2 * n);
        EXPECT_GE(p.top_mm - p.thickness_mm, 0);
    }
    EXPECT_NEAR(mean, 0, 0.05);
    EXPECT_NEAR(std::sqrt(spread), 0.4, 0.05);
    EXPECT_NEAR(glm::degrees(std::sqrt(tilt)), 2, 0.4);
}

TEST(Laying, StonesStandProudAndKeepTheirGround) {
    Layout layout = with_figure();
    PlacedStone stone;
    stone.material = kPumice;
    stone.at_mm = {500, 150};
    stone.size_mm = {44, 36, 24};
    stone.proud_mm = 12;
    layout.stones = {stone};
    const Laying laying = lay(layout);
    ASSERT_EQ(laying.stones.size(), 1u);
    EXPECT_DOUBLE_EQ(laying.stones[0].top_mm, face_plane_mm(layout) + 12);
    const Region footprint = region_of(laying.stones[0].footprint_mm);
    EXPECT_GT(area_mm2(footprint), 500);
    for (const auto& p : laying.pieces) EXPECT_LT(area_mm2(intersect(footprint, {{p.outline_mm}})), 1e-6);
    layout.stones[0].proud_mm = 24;
    EXPECT_THROW(lay(layout), LayoutError);
}

// A field as an artist might ask for it: sizes, joint, direction and guides by chance.
Field field_by_chance(Field field, Opus opus, const glm::dvec2& panel_mm, Rng& rng) {
    field.opus = opus;
    field.piece_length_mm = rng.within(5, 25);
    field.piece_width_mm = rng.within(5, 18);
    field.joint_mm = rng.within(0.4, 3);
    field.halo_rows = static_cast<int>(rng.unit() * 3);
    field.angle_deg = rng.within(-90, 90);
    field.on_edge = rng.unit() < 0.5;
    field.mix = {{kGlass, 0.5}, {kSlate, 0.2}, {kPumice, 0.2}, {kSlag, 0.1}};
    field.guides.clear();
    for (int g = static_cast<int>(rng.unit() * 3); g > 0; --g) {
        std::vector<glm::dvec2> points;
        for (int k = 0; k < 4; ++k)
            points.emplace_back(rng.within(-20, panel_mm.x + 20), rng.within(-20, panel_mm.y + 20));
        field.guides.push_back(smooth_stroke(points, rng.unit() < 0.3));
    }
    give_what_opus_needs(field, panel_mm);
    return field;
}

// A figure with bulges and hollows in the middle of the panel.
Stroke figure_by_chance(const glm::dvec2& panel_mm, Rng& rng) {
    std::vector<glm::dvec2> points;
    for (int k = 0; k < 7; ++k)
        points.push_back(panel_mm / 2.0 +
                         rng.within(20, 70) * glm::dvec2(std::cos(k * 0.9), std::sin(k * 0.9)));
    return smooth_stroke(points, true);
}

void expect_sound_and_apart(const Layout& layout, const Laying& laying) {
    for (const auto& piece : laying.pieces) {
        const Mesh mesh = form_piece(piece, layout.stock[piece.material]);
        ASSERT_GT(volume_mm3(mesh), 0);
        expect_good_normals(mesh);
    }
    EXPECT_LT(largest_overlap_mm2(laying.pieces), 1e-4);
}

// Every opus as a figure and as the ground round one, four times each, within what an artist might ask: no
// overlap, no broken mesh. What is refused is a figure nowhere as wide as its pieces, and nothing else.
TEST(Laying, WhateverIsAskedPiecesAreSoundAndApart) {
    constexpr std::size_t kTurns = 4;
    for (std::size_t opus = 0; opus < opera().size(); ++opus) {
        std::size_t laid = 0;
        for (std::size_t turn = 0; turn < kTurns; ++turn) {
            const std::size_t other = (opus + 1 + 2 * turn) % opera().size();
            SCOPED_TRACE(std::string(opera()[opus].word) + " in " + std::string(opera()[other].word));
            Rng rng(hash_combine(opus, turn));
            Layout layout = sample_layout(Opus::musivum, 10, 10, 1.5);
            const glm::dvec2 panel(rng.within(80, 260), rng.within(80, 200));
            layout.panel.width_mm = panel.x;
            layout.panel.height_mm = panel.y;
            const Field base = layout.fields[0];
            layout.fields = {field_by_chance(base, static_cast<Opus>(opus), panel, rng),
                             field_by_chance(base, static_cast<Opus>(other), panel, rng)};
            layout.fields[0].name = "figure";
            layout.fields[0].outline = figure_by_chance(panel, rng);
            Laying laying;
            try {
                laying = lay(layout);
            } catch (const LayoutError& error) {
                EXPECT_NE(std::string(error.what()).find("fields[1].piece: found"), std::string::npos)
                    << error.what();
                continue;
            }
            ++laid;
            expect_sound_and_apart(layout, laying);
        }
        EXPECT_GE(laid, kTurns / 2) << opera()[opus].word;
    }
}

TEST(Laying, SixThousandPiecesInGoodTime) {
    // A bound against blunders, not a measurement: ten times what a slow machine needs.
    Layout layout = sample_layout(Opus::musivum, 6, 5, 0.8);
    layout.stones.clear();
    const auto start = std::chrono::steady_clock::now();
    const Laying laying = lay(layout);
    for (const auto& p : laying.pieces)
        EXPECT_FALSE(form_piece(p, layout.stock[p.material]).triangles.empty());
    EXPECT_FALSE(form_joints(layout, laying).mesh.triangles.empty());
    EXPECT_GT(laying.pieces.size(), 5000u);
    EXPECT_LT(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count(), 20.0);
}

}  // namespace
}  // namespace rakelight
