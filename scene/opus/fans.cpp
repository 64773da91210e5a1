// Fans: bays side by side, each filled with arcs of one radius that follow one another along the bay. Where
// two bays meet their arcs alternate, so that no joint runs straight through. An arc pushed along its bay
// keeps its radius, so the rows draw together towards the sides by the cosine of the slope; masons use
// smaller stones there. The bay is as wide as lets that vary by a seventh either way.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "scene/opus/opus.h"

namespace rakelight {

namespace {

constexpr double kSpringing_rad = 40 * std::numbers::pi / 180;  // slope of an arc where it ends
constexpr double kSteepest_rad = 47 * std::numbers::pi / 180;

}  // namespace

void lay_fans(const OpusTask& task, std::vector<Piece>& pieces) {
    const Field& field = task.field;
    const Region& ground = task.ground;
    const FieldHand& hand = task.hand;
    const double turn = glm::radians(field.angle_deg);
    const glm::dvec2 along(std::cos(turn), std::sin(turn)), across(-along.y, along.x);
    Box box;
    for (const auto& ring : ground.rings)
        for (const auto& p : ring) box.add({glm::dot(p, along), glm::dot(p, across)});
    const double radius = fan_radius_mm(field);
    // A whole number of bays, unless the ground is narrower than one.
    const double usual = 2 * radius * std::sin(kSpringing_rad);
    int bays = std::max(1, static_cast<int>(std::lround(box.size().x / usual)));
    if (box.size().x / bays > 2 * radius * std::sin(kSteepest_rad)) ++bays;
    const double bay = box.size().x < usual ? usual : box.size().x / bays;
    const double first = (box.low.x + box.high.x - bay * bays) / 2;
    const double springing = std::asin(bay / (2 * radius));
    // Along the bay, so that the mean distance of rows across themselves is their pitch.
    const double step = hand.pitch.across_mm * springing / std::sin(springing);
    std::vector<Row> rows;
    const double rise = radius * (1 - std::cos(springing));
    const int above = static_cast<int>(std::ceil(rise / step)) + 1;  // arcs whose crowns are off the ground
    const int count = static_cast<int>(std::ceil(box.size().y / step)) + 2;
    // Where an arc ends: from bay to bay the line between them steps to and fro, so that the stones
    // interlock.
    const auto border_mm = [&](int between, int m) {
        if (between == 0) return box.low.x - 1;
        if (between == bays) return box.high.x + 1;
        return first + between * bay + (m % 2 ? 0.33 : -0.33) * hand.pitch.along_mm;
    };
    const double gap = 0.25 * hand.pitch.across_mm;
    for (int m = -above; m < count; ++m)  // from the top, where a crown lies along the edge
        for (int b = 0; b < bays; ++b) {
            const glm::dvec2 centre(first + (b + 0.5) * bay,
                                    box.high.y - (m + (b % 2 ? 0.0 : 0.5)) * step - radius);
            const auto slope_at = [&](double x) {
                return std::asin(std::clamp((x - centre.x) / radius, -0.9, 0.9));
            };
            const double from = slope_at(border_mm(b, m) + gap), to = slope_at(border_mm(b + 1, m) - gap);
            Row row;
            const int spans = std::max(8, static_cast<int>((to - from) * radius));
            for (int k = 0; k <= spans; ++k) {
                const double slope = from + (to - from) * k / spans;
                const glm::dvec2 q = centre + radius * glm::dvec2(std::sin(slope), std::cos(slope));
                row.line_mm.push_back(q.x * along + q.y * across);
            }
            rows.push_back(std::move(row));
        }
    FieldHand close = hand;
    close.rules.hand = 0.04;   // keystones are cut to fit their neighbours, not freely
    close.head_tolerance = 0;  // arcs are cut stone by stone
    close.forks = false;       // where bays meet arcs end one against the other
    lay_rows(rows, ground, close, task.heads, task.seed, pieces);
}

double fan_radius_mm(const Field& field) {
    return field.fan_radius_mm > 0 ? field.fan_radius_mm : 10 * field.piece_width_mm;
}

}  // namespace rakelight
