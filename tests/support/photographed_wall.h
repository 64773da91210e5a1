// A photograph of a wall with a sheet of paper on it, rendered from a hidden camera, and the same wall with
// the panel, rendered whole.
#pragma once

#include "materials/colour/colorimetry.h"
#include "output/in_photograph/sheet_pose.h"
#include "output/print/develop.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/room/joinery.h"
#include "tests/support/small_world.h"

namespace rakelight::test {

struct HiddenCamera {
    SheetPose pose;  ///< of the sheet's coordinates
    glm::ivec2 size_px{480, 360};

    Camera camera(const glm::dvec3& sheet_in_world_mm) const {
        const glm::dvec2 one = glm::dvec2(size_px) / pose.focal_px;
        Camera c;
        c.eye_mm = glm::vec3(pose.eye_mm + sheet_in_world_mm);
        c.corner = glm::vec3(pose.forward - pose.right * (one.x / 2) - pose.down * (one.y / 2));
        c.right = glm::vec3(pose.right * one.x);
        c.down = glm::vec3(pose.down * one.y);
        return c;
    }
    glm::dvec2 seen(const glm::dvec3& at_mm) const { return seen_px(pose, glm::dvec2(size_px), at_mm); }
};

/// At `eye_mm` from the sheet's middle, looking beside it, held a little slanting; the lens as before film of
/// 36 x 24 mm (by the diagonal).
inline HiddenCamera hidden_camera(const glm::dvec3& eye_mm, double focal_35mm, const glm::ivec2& size_px) {
    HiddenCamera camera;
    camera.size_px = size_px;
    camera.pose.focal_px = focal_35mm / std::hypot(36.0, 24.0) * glm::length(glm::dvec2(size_px));
    camera.pose.eye_mm = eye_mm;
    camera.pose.forward = glm::normalize(glm::dvec3(40, -25, 0) - eye_mm);
    camera.pose.right = glm::normalize(glm::cross(camera.pose.forward, glm::dvec3(0.04, 1, 0)));
    camera.pose.down = glm::cross(camera.pose.forward, camera.pose.right);
    return camera;
}

/// Linear red, green, blue in cd/m2.
inline std::vector<glm::dvec3> seen_by(const World& world, const Layout& layout, const HiddenCamera& camera,
                                       const glm::dvec3& sheet_in_room_mm, int samples, int grain_seed) {
    const Bvh bvh(world);
    Picture picture;
    picture.width_px = camera.size_px.x;
    picture.height_px = camera.size_px.y;
    picture.error = 1e-9;
    picture.most_samples = samples;
    picture.grain_seed = grain_seed;
    RenderOptions options;
    options.card_cd_per_m2 = 1;
    options.camera = camera.camera(sheet_in_room_mm - world.origin_mm);
    const Film film = render(world, bvh, layout, picture, options);
    std::vector<glm::dvec3> rgb;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const glm::dvec3 xyz(total_xyz(film, i));
        const LinearRgb linear = xyz_to_linear_rgb({xyz.x, xyz.y, xyz.z});
        rgb.emplace_back(linear.r, linear.g, linear.b);
    }
    return rgb;
}

/// The bare wall with a sheet lying on it.
inline World wall_with_sheet(const Layout& layout, const glm::dvec3& sheet_in_room_mm,
                             const glm::dvec2& sheet_mm, float reflectance) {
    World world = build_bare_wall(layout);
    const glm::dvec3 corner = sheet_in_room_mm + glm::dvec3(-sheet_mm / 2.0, 0.2) - world.origin_mm;
    add(world, rectangle_mesh(corner, {sheet_mm.x, 0, 0}, {0, sheet_mm.y, 0}), glm::mat4(1),
        object_of(world, matte(reflectance)));
    finish(world);
    return world;
}

/// As a camera saves it, light of `white` being 1, 1, 1.
inline Print photograph_of(const std::vector<glm::dvec3>& rgb, const glm::ivec2& size_px,
                           const glm::dvec3& white) {
    Print print{size_px.x, size_px.y, {}};
    for (const glm::dvec3& light : rgb) {
        const glm::dvec3 p = light / white;
        const EncodedSrgb e = encode({p.x, p.y, p.z});
        for (const double v : {e.r, e.g, e.b})
            print.rgb.push_back(static_cast<float>(std::clamp(v, 0.0, 1.0)));
    }
    return print;
}

}  // namespace rakelight::test
