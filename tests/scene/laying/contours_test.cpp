// Which edges rows follow: figures that run off the panel, halos that leave its edge alone.
#include "scene/laying/contours.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scene/laying/region_plan.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

Stroke box(double left, double bottom, double right, double top) {
    Stroke stroke;
    stroke.points_mm = {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
    stroke.closed = true;
    return stroke;
}

// Straight rows along x round two squares.
Layout two_figures() {
    Layout layout = sample_layout(Opus::tessellatum, 10, 8, 1);
    add_figure(layout, box(100, 150, 200, 250)).name = "moon";
    add_figure(layout, box(400, 150, 500, 250)).name = "ridge";
    return layout;
}

// The share of the pieces of the ground, with their middles in a box, that run upright.
double upright(const Layout& layout, const Laying& laying, const Box& where) {
    int all = 0, up = 0;
    for (const Piece& piece : laying.pieces) {
        const glm::dvec2 at = centroid(piece.outline_mm);
        if (layout.fields[piece.field].name != "whole" || at.x < where.low.x || at.y < where.low.y ||
            at.x > where.high.x || at.y > where.high.y)
            continue;
        ++all;
        up += std::abs(piece.along.y) > 0.9;
    }
    EXPECT_GT(all, 5);
    return static_cast<double>(up) / std::max(all, 1);
}

const Box kLeftEdge{{0, 60}, {9, 340}};
const Box kBesideMoon{{201, 165}, {209, 235}}, kBesideRidge{{391, 165}, {399, 235}};

TEST(Halo, LeavesThePanelsEdgeAloneUnlessAsked) {
    Layout layout = two_figures();
    layout.fields.back().halo_rows = 1;
    Laying laying = lay(layout);
    EXPECT_LT(upright(layout, laying, kLeftEdge), 0.05);
    EXPECT_GT(upright(layout, laying, kBesideMoon), 0.9);
    EXPECT_GT(upright(layout, laying, kBesideRidge), 0.9);
    layout.fields.back().halo_at_panel_edge = true;
    laying = lay(layout);
    EXPECT_GT(upright(layout, laying, kLeftEdge), 0.9);
    EXPECT_GT(upright(layout, laying, kBesideMoon), 0.9);
}

TEST(Halo, FollowsTheFiguresThatItNames) {
    Layout layout = two_figures();
    layout.fields.back().halo_rows = 1;
    layout.fields.back().halo_round = {"moon"};
    Laying laying = lay(layout);
    EXPECT_GT(upright(layout, laying, kBesideMoon), 0.9);
    EXPECT_LT(upright(layout, laying, kBesideRidge), 0.1);
    EXPECT_LT(upright(layout, laying, kLeftEdge), 0.05);
    layout.fields.back().halo_at_panel_edge = true;
    laying = lay(layout);
    EXPECT_GT(upright(layout, laying, kLeftEdge), 0.9);
    EXPECT_LT(upright(layout, laying, kBesideRidge), 0.1);
}

TEST(Contours, AFigureRunsOffThePanel) {
    // A band that is drawn well past the left edge, and one that ends there.
    for (const double left : {-60.0, 0.0}) {
        Layout layout = sample_layout(Opus::vermiculatum, 10, 8, 1);
        add_figure(layout, box(left, 150, 300, 223)).name = "band";
        const Laying laying = lay(layout);
        int across = 0;
        for (const Piece& piece : laying.pieces) {
            const glm::dvec2 at = centroid(piece.outline_mm);
            across +=
                piece.field == 0 && at.x < 9 && at.y > 165 && at.y < 208 && std::abs(piece.along.y) > 0.7;
        }
        EXPECT_EQ(across > 0, left == 0) << left;
    }
}

TEST(Contours, AreTheGroundsOwnUnlessItLeavesThem) {
    const Layout layout = two_figures();
    for (const Contours& c : plan_contours(layout, plan_regions(layout, {}), {})) {
        EXPECT_TRUE(c.halo.empty());
        EXPECT_TRUE(c.outline.empty());
    }
}

}  // namespace
}  // namespace rakelight
