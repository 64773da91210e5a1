#include "output/in_photograph/sheet_pose.h"

#include <Eigen/Dense>
#include <cmath>
#include <stdexcept>

#include "output/compare/homography.h"

namespace rakelight {

namespace {

using Parameters =
    Eigen::Matrix<double, 7, 1>;  // turn about three axes, shift, logarithm of the focal length
using Residuals = Eigen::Matrix<double, 8, 1>;
using Jacobian = Eigen::Matrix<double, 8, 7>;

std::array<glm::dvec3, 4> corners_mm(const glm::dvec2& size) {
    const double x = size.x / 2, y = size.y / 2;
    return {glm::dvec3(-x, y, 0), {x, y, 0}, {x, -y, 0}, {-x, -y, 0}};
}

// The wall in the camera's axes: right, down, forward.
struct View {
    glm::dmat3 turn{1};  // of the wall's axes
    glm::dvec3 shift{};  // of the sheet's middle, mm
    double focal_px = 1;

    glm::dvec2 seen(const glm::dvec3& at_mm) const {
        const glm::dvec3 p = turn * at_mm + shift;
        return focal_px * glm::dvec2(p) / p.z;
    }
};

// Rotation by a vector (Rodrigues).
glm::dmat3 rotation(const glm::dvec3& by) {
    const double angle = glm::length(by);
    if (angle < 1e-15) return glm::dmat3(1);
    const glm::dvec3 k = by / angle;
    const glm::dmat3 cross(glm::dvec3(0, k.z, -k.y), glm::dvec3(-k.z, 0, k.x), glm::dvec3(k.y, -k.x, 0));
    return glm::dmat3(1) + std::sin(angle) * cross + (1 - std::cos(angle)) * cross * cross;
}

View moved(const View& view, const Parameters& by) {
    return {rotation({by[0], by[1], by[2]}) * view.turn,
            view.shift + glm::dvec3(by[3], by[4], by[5]) * view.shift.z, view.focal_px * std::exp(by[6])};
}

Residuals residuals(const View& view, const SeenSheet& sheet) {
    const auto corners = corners_mm(sheet.size_mm);
    Residuals r;
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::dvec2 off = view.seen(corners[i]) - (sheet.corners_px[i] - sheet.photograph_px / 2.0);
        r[static_cast<Eigen::Index>(2 * i)] = off.x;
        r[static_cast<Eigen::Index>(2 * i + 1)] = off.y;
    }
    return r;
}

// By central differences. A known focal length does not move.
Jacobian jacobian(const View& view, const SeenSheet& sheet) {
    constexpr double kStep = 1e-6;
    Jacobian j;
    for (Eigen::Index k = 0; k < 7; ++k) {
        Parameters step = Parameters::Zero();
        step[k] = k == 6 && sheet.focal_px ? 0 : kStep;
        j.col(k) = (residuals(moved(view, step), sheet) - residuals(moved(view, -step), sheet)) / (2 * kStep);
    }
    return j;
}

// From what two columns of the homography have to be: at right angles and of one length.
double focal_of(const glm::dmat3& h) {
    const glm::dvec3 &a = h[0], &b = h[1];
    const double a1 = a.x * b.x + a.y * b.y, b1 = a.z * b.z;
    const double a2 = a.x * a.x + a.y * a.y - b.x * b.x - b.y * b.y, b2 = a.z * a.z - b.z * b.z;
    const double inverse_square = -(a1 * b1 + a2 * b2) / (a1 * a1 + a2 * a2);
    return inverse_square > 0 && std::isfinite(inverse_square) ? 1 / std::sqrt(inverse_square) : 0;
}

View first_guess(const SeenSheet& sheet) {
    Corners from, to;
    const auto corners = corners_mm(sheet.size_mm);
    for (std::size_t i = 0; i < 4; ++i) {
        from[i] = glm::dvec2(corners[i]);
        to[i] = sheet.corners_px[i] - sheet.photograph_px / 2.0;
    }
    const glm::dmat3 h = homography(from, to);
    View view;
    view.focal_px = sheet.focal_px.value_or(focal_of(h));
    if (!(view.focal_px > 0)) return view;
    const glm::dvec3 by(1 / view.focal_px, 1 / view.focal_px, 1);
    const glm::dvec3 a = by * h[0], b = by * h[1];
    const double scale = 2 / (glm::length(a) + glm::length(b));
    // The nearest pair at right angles: turned alike from their mean.
    const glm::dvec3 sum = glm::normalize(glm::normalize(a) + glm::normalize(b));
    const glm::dvec3 difference = glm::normalize(glm::normalize(a) - glm::normalize(b));
    const glm::dvec3 x = glm::normalize(sum + difference), y = glm::normalize(sum - difference);
    view.turn = {x, y, glm::cross(x, y)};
    view.shift = by * h[2] * scale;
    return view;
}

View refined(View view, const SeenSheet& sheet) {
    double damping = 1e-3, cost = residuals(view, sheet).squaredNorm();
    for (int round = 0; round < 100 && damping < 1e12; ++round) {
        const Jacobian j = jacobian(view, sheet);
        Eigen::Matrix<double, 7, 7> normal = j.transpose() * j;
        normal.diagonal() += damping * normal.diagonal() + Parameters::Constant(1e-12);
        const Parameters step = normal.ldlt().solve(-j.transpose() * residuals(view, sheet));
        const View next = moved(view, step);
        const double there = residuals(next, sheet).squaredNorm();
        const bool better = there < cost;
        damping *= better ? 0.2 : 10;
        if (!better) continue;
        view = next;
        const bool still = cost - there < 1e-14 * (1 + cost);
        cost = there;
        if (still) break;
    }
    return view;
}

void add_doubts(SheetPose& pose, const View& view, const SeenSheet& sheet, double told_px) {
    const Jacobian j = jacobian(view, sheet);
    const Eigen::Index free = sheet.focal_px ? 6 : 7;
    const Eigen::MatrixXd used = j.leftCols(free);
    const Eigen::MatrixXd spread = told_px * told_px * (used.transpose() * used).inverse();
    pose.direction_doubt_deg = glm::degrees(std::sqrt(std::max(spread(0, 0), spread(1, 1))));
    pose.distance_doubt = std::sqrt(spread(5, 5));
    pose.focal_doubt = sheet.focal_px ? 0 : std::sqrt(spread(6, 6));
}

}  // namespace

SheetPose pose_of(const SeenSheet& sheet, double told_px) {
    if (!proper(sheet.corners_px))
        throw std::runtime_error(
            "found corners that do not go round a sheet, expected upper left, upper right, "
            "lower right, lower left");
    const View guess = first_guess(sheet);
    if (!(guess.focal_px > 0))
        throw std::runtime_error(
            "found a sheet seen nearly square on, from which no focal length follows, "
            "expected it to be given");
    const View view = refined(guess, sheet);
    SheetPose pose;
    pose.focal_px = view.focal_px;
    const glm::dmat3 back = glm::transpose(view.turn);
    pose.right = back[0], pose.down = back[1], pose.forward = back[2];
    pose.eye_mm = -back * view.shift;
    pose.misfit_px = std::sqrt(residuals(view, sheet).squaredNorm() / 4);
    if (!(pose.eye_mm.z > 0) || !std::isfinite(pose.misfit_px))
        throw std::runtime_error("found corners of a sheet seen from behind, expected it to face the camera");
    add_doubts(pose, view, sheet, told_px);
    return pose;
}

glm::dvec2 seen_px(const SheetPose& pose, const glm::dvec2& photograph_px, const glm::dvec3& at_mm) {
    const glm::dvec3 to = at_mm - pose.eye_mm;
    return photograph_px / 2.0 + pose.focal_px *
                                     glm::dvec2(glm::dot(to, pose.right), glm::dot(to, pose.down)) /
                                     glm::dot(to, pose.forward);
}

}  // namespace rakelight
