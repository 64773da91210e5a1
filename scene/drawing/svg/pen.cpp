#include "scene/drawing/svg/pen.h"

#include <2geom/elliptical-arc.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scene/geometry/thinning.h"

namespace rakelight {
namespace {

constexpr double kFarthest_mm = 1e6;
constexpr double kSamePoint_mm = 1e-6;
constexpr double kMostParts = 1024;

/// The share of the tolerance that curves use up; thinning has the rest.
constexpr double kCurveShare = 0.5;

double parts_within(double bend_mm, double tolerance_mm) {
    return std::clamp(std::ceil(std::sqrt(0.75 * bend_mm / tolerance_mm)), 1.0, kMostParts);
}

}  // namespace

Pen::Pen(const Geom::Affine& to_panel, double tolerance_mm, std::size_t most_points)
    : to_panel_(to_panel), tolerance_mm_(tolerance_mm), most_points_(most_points) {}

glm::dvec2 Pen::on_panel(const Geom::Point& p) const {
    const Geom::Point q = p * to_panel_;
    return {q.x(), q.y()};
}

void Pen::put(const Geom::Point& p) {
    if (!problem_.empty()) return;
    const glm::dvec2 q = on_panel(p);
    if (!(std::abs(q.x) <= kFarthest_mm && std::abs(q.y) <= kFarthest_mm))
        problem_ = "coordinates off the map, expected them within a kilometre of the page";
    else if (++made_ > most_points_)
        problem_ = fmt::format("more than {} points up to here, expected a simpler drawing", most_points_);
    if (!problem_.empty()) return;
    if (chain_.empty() || glm::distance(chain_.back(), q) > kSamePoint_mm) chain_.push_back(q);
    at_ = p;
}

bool Pen::begin() {
    ++commands_;
    if (!drawing_) {
        drawing_ = true;
        put(start_);
    }
    return problem_.empty();
}

void Pen::moveTo(const Geom::Point& p) {
    flush();
    ++commands_;
    start_ = at_ = p;
}

void Pen::lineTo(const Geom::Point& p) {
    if (!begin()) return;
    put(p);
}

void Pen::curveTo(const Geom::Point& c0, const Geom::Point& c1, const Geom::Point& p) {
    if (!begin()) return;
    const Geom::Point from = at_;
    const glm::dvec2 a = on_panel(from), b = on_panel(c0), c = on_panel(c1), d = on_panel(p);
    const double bend = std::max(glm::length(a - 2.0 * b + c), glm::length(b - 2.0 * c + d));
    const double parts = parts_within(bend, kCurveShare * tolerance_mm_);
    for (double i = 1; i < parts; ++i) {
        const double t = i / parts, s = 1 - t;
        put(s * s * s * from + 3 * s * s * t * c0 + 3 * s * t * t * c1 + t * t * t * p);
    }
    put(p);
}

void Pen::quadTo(const Geom::Point& c, const Geom::Point& p) {
    if (!begin()) return;
    --commands_;  // counted as the cubic that it is
    curveTo(at_ + (2.0 / 3) * (c - at_), p + (2.0 / 3) * (c - p), p);
}

void Pen::arcTo(double rx, double ry, double angle, bool large_arc, bool sweep, const Geom::Point& p) {
    if (!begin()) return;
    if (rx == 0 || ry == 0 || !std::isfinite(rx + ry + angle)) return put(p);  // F.6.2: a straight line
    const Geom::EllipticalArc arc(at_, std::abs(rx), std::abs(ry), angle, large_arc, sweep, p);
    const double turn = arc.angularExtent();
    // An affine map stretches no direction by more than the norm of its matrix.
    const double stretch = std::sqrt(to_panel_[0] * to_panel_[0] + to_panel_[1] * to_panel_[1] +
                                     to_panel_[2] * to_panel_[2] + to_panel_[3] * to_panel_[3]);
    const double radius_mm = stretch * std::max(arc.ray(Geom::X), arc.ray(Geom::Y));
    const double step = 2 * std::acos(1 - std::min(1.0, kCurveShare * tolerance_mm_ / radius_mm));
    const double parts = radius_mm > 0 ? std::clamp(std::ceil(turn / step), 1.0, kMostParts) : 1;
    for (double i = 1; i < parts; ++i) put(arc.pointAt(i / parts));
    put(p);
}

void Pen::closePath() {
    if (!drawing_) return;
    ++commands_;
    while (chain_.size() > 1 && glm::distance(chain_.front(), chain_.back()) <= kSamePoint_mm)
        chain_.pop_back();
    if (chain_.size() > 2) lines_.push_back({thinned(chain_, true, (1 - kCurveShare) * tolerance_mm_), true});
    chain_.clear();
    drawing_ = false;
    at_ = start_;
}

void Pen::flush() {
    if (!drawing_) return;
    if (chain_.size() > 3 && glm::distance(chain_.front(), chain_.back()) <= tolerance_mm_) {
        closePath();
        return;
    }
    if (chain_.size() > 1)
        lines_.push_back({thinned(chain_, false, (1 - kCurveShare) * tolerance_mm_), false});
    chain_.clear();
    drawing_ = false;
}

std::vector<DrawnLine> Pen::take_lines() {
    flush();
    if (!problem_.empty()) throw PenError(problem_);
    return std::exchange(lines_, {});
}

}  // namespace rakelight
