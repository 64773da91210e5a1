#include "output/marks/plane_fit.h"

#include <Eigen/Dense>
#include <numbers>

namespace rakelight {
namespace {

using Row = Eigen::Matrix<double, 1, 9>;

/// To a mean of 0 and a mean distance of the root of 2 (Hartley and Zisserman, algorithm 4.2).
template <class Of>
glm::dmat3 normalising(std::span<const SeenPoint> points, Of of) {
    glm::dvec2 mean(0);
    for (const SeenPoint& p : points) mean += of(p) / static_cast<double>(points.size());
    double away = 0;
    for (const SeenPoint& p : points) away += glm::distance(of(p), mean) / static_cast<double>(points.size());
    const double s = std::numbers::sqrt2 / away;
    return {glm::dvec3(s, 0, 0), glm::dvec3(0, s, 0), glm::dvec3(-s * mean, 1)};
}

glm::dmat3 linear_fit(std::span<const SeenPoint> points) {
    const glm::dmat3 a = normalising(points, [](const SeenPoint&p) { return p.at_mm; }),
                     b = normalising(points, [](const SeenPoint&p) { return p.at_px; });
    Eigen::Matrix<double, Eigen::Dynamic, 9> rows(2 * static_cast<Eigen::Index>(points.size()), 9);
    Eigen::Index i = 0;
    for (const SeenPoint& p : points) {
        const glm::dvec2 m = through(a, p.at_mm), s = through(b, p.at_px);
        rows.row(i++) = (Row() << m.x, m.y, 1, 0, 0, 0, -s.x * m.x, -s.x * m.y, -s.x).finished();
        rows.row(i++) = (Row() << 0, 0, 0, m.x, m.y, 1, -s.y * m.x, -s.y * m.y, -s.y).finished();
    }
    const Eigen::Matrix<double, 9, 9> square = rows.transpose() * rows;
    const Eigen::Matrix<double, 9, 1> v =
        Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, 9, 9>>(square).eigenvectors().col(0);
    const glm::dmat3 h(glm::dvec3(v[0], v[3], v[6]), glm::dvec3(v[1], v[4], v[7]),
                       glm::dvec3(v[2], v[5], v[8]));
    const glm::dmat3 whole = glm::inverse(b) * h * a;
    return whole / whole[2][2];
}

glm::dmat3 refined(glm::dmat3 h, std::span<const SeenPoint> points) {
    for (int round = 0; round < 6; ++round) {
        Eigen::Matrix<double, 8, 8> square = Eigen::Matrix<double, 8, 8>::Zero();
        Eigen::Matrix<double, 8, 1> right = Eigen::Matrix<double, 8, 1>::Zero();
        for (const SeenPoint& p : points) {
            const glm::dvec3 q = h * glm::dvec3(p.at_mm, 1);
            const glm::dvec2 seen = glm::dvec2(q) / q.z, miss = p.at_px - seen;
            const double x = p.at_mm.x / q.z, y = p.at_mm.y / q.z, one = 1 / q.z;
            Eigen::Matrix<double, 2, 8> slope;
            slope << x, y, one, 0, 0, 0, -seen.x * x, -seen.x * y, 0, 0, 0, x, y, one, -seen.y * x,
                -seen.y * y;
            square += slope.transpose() * slope;
            right += slope.transpose() * Eigen::Vector2d(miss.x, miss.y);
        }
        const Eigen::Matrix<double, 8, 1> d = square.ldlt().solve(right);
        if (!d.allFinite()) break;
        h +=
            glm::dmat3(glm::dvec3(d[0], d[3], d[6]), glm::dvec3(d[1], d[4], d[7]), glm::dvec3(d[2], d[5], 0));
    }
    return h;
}

}  // namespace

PlaneFit fit_plane(std::span<const SeenPoint> points) {
    PlaneFit fit{refined(linear_fit(points), points), 0};
    const glm::dmat3 back = glm::inverse(fit.to_px);
    double sum = 0;
    for (const SeenPoint& p : points) {
        const glm::dvec2 miss = through(back, p.at_px) - p.at_mm;
        sum += glm::dot(miss, miss);
    }
    fit.misfit_mm = std::sqrt(sum / static_cast<double>(points.size()));
    return fit;
}

}  // namespace rakelight
