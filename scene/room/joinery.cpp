#include "scene/room/joinery.h"

#include <algorithm>
#include <array>
#include <glm/gtc/constants.hpp>
#include <numbers>
#include <span>
#include <utility>

namespace rakelight {

namespace {

void add_quad(Mesh& mesh, const std::array<glm::dvec3, 4>& corners,
              const std::array<glm::dvec3, 4>& normals) {
    const auto first = static_cast<std::uint32_t>(mesh.positions_mm.size());
    for (int i = 0; i < 4; ++i) {
        mesh.positions_mm.emplace_back(corners[i]);
        mesh.normals.emplace_back(normals[i]);
    }
    mesh.triangles.emplace_back(first, first + 1, first + 2);
    mesh.triangles.emplace_back(first, first + 2, first + 3);
}

// A convex flat face through the places of `ring`, facing `normal`.
template <class Place>
void add_fan(Mesh& mesh, const std::vector<glm::dvec2>& ring, const glm::vec3& normal, Place&& place) {
    const auto first = static_cast<std::uint32_t>(mesh.positions_mm.size());
    for (const glm::dvec2& point : ring) {
        mesh.positions_mm.emplace_back(place(point));
        mesh.normals.push_back(normal);
    }
    const glm::vec3* at = mesh.positions_mm.data() + first;
    const bool turned = glm::dot(glm::cross(at[1] - at[0], at[2] - at[0]), normal) < 0;
    for (std::uint32_t i = 2; i < ring.size(); ++i)
        mesh.triangles.push_back(turned ? glm::uvec3(first, first + i, first + i - 1)
                                        : glm::uvec3(first, first + i - 1, first + i));
}

struct ProfilePoint {
    glm::dvec2 at_mm;  // x: outward from the opening, y: height
    glm::dvec2 normal;
};

// Section of a bar: a rectangle whose two front arrises are quarter rounds. Runs clockwise seen along the bar
// from the outer back corner, over the front, to the inner back corner; hard corners are doubled.
std::vector<ProfilePoint> bar_profile(double width_mm, double back_mm, double front_mm) {
    constexpr int kRoundSteps = 4;
    const double r = std::min({1.5, width_mm / 3, (front_mm - back_mm) / 3});
    std::vector<ProfilePoint> profile{{{width_mm, back_mm}, {1, 0}}};
    for (int i = 0; i <= kRoundSteps; ++i) {
        const double a = glm::half_pi<double>() * i / kRoundSteps;
        const glm::dvec2 n(std::cos(a), std::sin(a));
        profile.push_back({glm::dvec2(width_mm - r, front_mm - r) + r * n, n});
    }
    for (int i = 0; i <= kRoundSteps; ++i) {
        const double a = glm::half_pi<double>() * (1 + static_cast<double>(i) / kRoundSteps);
        const glm::dvec2 n(std::cos(a), std::sin(a));
        profile.push_back({glm::dvec2(r, front_mm - r) + r * n, n});
    }
    profile.push_back({{0, back_mm}, {-1, 0}});
    profile.push_back({{0, back_mm}, {0, -1}});
    profile.push_back({{width_mm, back_mm}, {0, -1}});
    return profile;
}

}  // namespace

Mesh rectangle_mesh(const glm::dvec3& corner_mm, const glm::dvec3& side_u_mm, const glm::dvec3& side_v_mm) {
    Mesh mesh;
    const glm::dvec3 n = glm::normalize(glm::cross(side_u_mm, side_v_mm));
    add_quad(mesh,
             {corner_mm, corner_mm + side_u_mm, corner_mm + side_u_mm + side_v_mm, corner_mm + side_v_mm},
             {n, n, n, n});
    return mesh;
}

Mesh box_mesh(const glm::dvec3& low_mm, const glm::dvec3& high_mm) {
    Mesh mesh;
    for (int axis = 0; axis < 3; ++axis) {
        const int u = (axis + 1) % 3;
        const int v = (axis + 2) % 3;
        for (const bool high : {false, true}) {
            glm::dvec3 normal(0);
            normal[axis] = high ? 1 : -1;
            std::array<glm::dvec3, 4> corners;
            const std::array<glm::dvec2, 4> square{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
            for (int i = 0; i < 4; ++i) {
                glm::dvec3 p;
                p[axis] = high ? high_mm[axis] : low_mm[axis];
                const glm::dvec2 s = square[high ? i : 3 - i];
                p[u] = s.x > 0 ? high_mm[u] : low_mm[u];
                p[v] = s.y > 0 ? high_mm[v] : low_mm[v];
                corners[i] = p;
            }
            add_quad(mesh, corners, {normal, normal, normal, normal});
        }
    }
    return mesh;
}

Mesh eased_box_mesh(const glm::dvec3& low_mm, const glm::dvec3& high_mm, double ease_mm) {
    const glm::dvec3 size = high_mm - low_mm, middle = (low_mm + high_mm) / 2.0;
    const double ease = std::min(ease_mm, std::min({size.x, size.y, size.z}) / 3);
    // Corner towards `sign` of the face square to `axis`.
    const auto corner = [&](int axis, const glm::dvec3& sign) {
        glm::dvec3 inset(ease);
        inset[axis] = 0;
        return middle + sign * (size / 2.0 - inset);
    };
    Mesh mesh;
    // Corners of flat faces in any order round, each with the normal of its own face.
    const auto add = [&](std::span<const std::pair<int, glm::dvec3>> ring) {
        const auto first = static_cast<std::uint32_t>(mesh.positions_mm.size());
        glm::dvec3 outward(0);
        for (const auto& [axis, sign] : ring) {
            glm::dvec3 normal(0);
            normal[axis] = sign[axis];
            outward += normal;
            mesh.positions_mm.emplace_back(corner(axis, sign));
            mesh.normals.emplace_back(normal);
        }
        const auto at = [&](std::size_t i) { return corner(ring[i].first, ring[i].second); };
        const bool turned = glm::dot(glm::cross(at(1) - at(0), at(2) - at(0)), outward) < 0;
        for (std::uint32_t i = 2; i < ring.size(); ++i)
            mesh.triangles.push_back(turned ? glm::uvec3(first, first + i, first + i - 1)
                                            : glm::uvec3(first, first + i - 1, first + i));
    };
    const auto signs = [](int u, double at_u, int v, double at_v, int w, double at_w) {
        glm::dvec3 sign;
        sign[u] = at_u, sign[v] = at_v, sign[w] = at_w;
        return sign;
    };
    for (int u = 0; u < 3; ++u) {
        const int v = (u + 1) % 3, w = (u + 2) % 3;
        using Corner = std::pair<int, glm::dvec3>;
        for (const double a : {-1.0, 1.0}) {
            add(std::array<Corner, 4>{{{u, signs(u, a, v, -1, w, -1)},
                                       {u, signs(u, a, v, 1, w, -1)},
                                       {u, signs(u, a, v, 1, w, 1)},
                                       {u, signs(u, a, v, -1, w, 1)}}});
            for (const double b : {-1.0, 1.0})  // the edge between the faces of u and v runs along w
                add(std::array<Corner, 4>{{{u, signs(u, a, v, b, w, -1)},
                                           {u, signs(u, a, v, b, w, 1)},
                                           {v, signs(u, a, v, b, w, 1)},
                                           {v, signs(u, a, v, b, w, -1)}}});
        }
    }
    for (int i = 0; i < 8; ++i) {
        const glm::dvec3 sign(i & 1 ? 1 : -1, i & 2 ? 1 : -1, i & 4 ? 1 : -1);
        add(std::array<std::pair<int, glm::dvec3>, 3>{{{0, sign}, {1, sign}, {2, sign}}});
    }
    return mesh;
}

Mesh frame_bar_mesh(int side, double opening_width_mm, double opening_height_mm, double bar_width_mm,
                    double back_mm, double front_mm) {
    // Corners of the opening, counter-clockwise; side i runs from corner i to corner i + 1.
    const std::array<glm::dvec2, 4> corner{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}};
    const std::array<glm::dvec2, 4> outward{{{0, -1}, {1, 0}, {0, 1}, {-1, 0}}};
    const glm::dvec2 half(opening_width_mm / 2, opening_height_mm / 2);
    const int from = side;
    const int to = (side + 1) % kFrameSides;
    const glm::dvec2 run = (corner[to] - corner[from]) / 2.0;
    const auto at = [&](int c, const glm::dvec2& p) {  // a mitre: both sides move out alike
        const double in = (c == from ? 1 : -1) * kMitreGap_mm / 2 * std::numbers::sqrt2;
        return glm::dvec3(corner[c] * (half + p.x) + run * in, p.y);
    };
    const auto normal = [&](const glm::dvec2& n) { return glm::dvec3(outward[side] * n.x, n.y); };

    Mesh mesh;
    const auto profile = bar_profile(bar_width_mm, back_mm, front_mm);
    for (std::size_t i = 0; i + 1 < profile.size(); ++i) {
        const auto& a = profile[i];
        const auto& b = profile[i + 1];
        if (a.at_mm == b.at_mm) continue;
        add_quad(mesh, {at(from, a.at_mm), at(to, a.at_mm), at(to, b.at_mm), at(from, b.at_mm)},
                 {normal(a.normal), normal(a.normal), normal(b.normal), normal(b.normal)});
    }
    // The cut ends: the section, whose corners lie round its first.
    std::vector<glm::dvec2> ring;
    for (const ProfilePoint& point : profile)
        if (ring.empty() || (point.at_mm != ring.back() && point.at_mm != ring.front()))
            ring.push_back(point.at_mm);
    for (const int end : {from, to}) {
        const glm::dvec2 out = end == from ? -run : run;
        add_fan(mesh, ring, glm::vec3(glm::normalize(glm::dvec3(out - outward[side], 0))),
                [&](const glm::dvec2& p) { return at(end, p); });
    }
    return mesh;
}

}  // namespace rakelight
