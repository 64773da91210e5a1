#include "scene/opus/seams.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "scene/laying/laying.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

Stroke line(const glm::dvec2& a, const glm::dvec2& b) {
    Stroke stroke;
    stroke.points_mm = {a, b};
    return stroke;
}

const Region kGround{{{{0, 0}, {400, 0}, {400, 400}, {0, 400}}}};

// Two guides that run apart at so many degrees from one corner.
Field corner(double turn_deg) {
    Field field = sample_layout(Opus::musivum, 9, 8, 1).fields[0];
    const double turn = glm::radians(turn_deg);
    const glm::dvec2 along(std::cos(turn), std::sin(turn));
    field.guides = {line({40, 20}, {400, 20}),
                    line(glm::dvec2(20, 20) + 20.0 * along, glm::dvec2(20, 20) + 500.0 * along)};
    field.mitred_seams = true;
    return field;
}

TEST(Seams, LieAsFarFromTheOneGuideAsFromTheOther) {
    // Between two lines at a right angle: their bisector, closed form.
    const auto seams = seams_of(corner(90), kGround);
    ASSERT_EQ(seams.size(), 1u);
    double farthest = 0;
    for (const auto& p : seams[0].line_mm) {
        EXPECT_NEAR(p.x, p.y, 2);
        farthest = std::max(farthest, p.x);
    }
    EXPECT_GT(farthest, 390);
}

TEST(Seams, AreNoneWhereRowsMeetAtLittleOrNobodyAsks) {
    EXPECT_TRUE(seams_of(corner(30), kGround).empty());
    Field turning = corner(90);
    turning.mitred_seams = false;
    EXPECT_TRUE(seams_of(turning, kGround).empty());
}

TEST(Seams, PiecesEndOnOneLine) {
    Layout layout = sample_layout(Opus::musivum, 9, 8, 1);
    layout.panel.width_mm = layout.panel.height_mm = 300;
    layout.fields[0].guides = corner(90).guides;
    layout.fields[0].mitred_seams = true;
    // None reaches over the bisector by more than the hand takes, but where the guides are and the seam
    // begins.
    for (const Piece& piece : lay(layout).pieces) {
        double low = 1e9, high = -1e9;
        for (const auto& p : piece.outline_mm) {
            low = std::min(low, (p.x - p.y) / std::sqrt(2.0));
            high = std::max(high, (p.x - p.y) / std::sqrt(2.0));
        }
        if (centroid(piece.outline_mm).x < 60) continue;
        EXPECT_LT(std::min(-low, high), 1.5) << centroid(piece.outline_mm).x;
    }
}

}  // namespace
}  // namespace rakelight
