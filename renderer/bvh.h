// The bounding volume hierarchy over a world's triangles: Embree, asked for the nearest hit of a ray or
// whether anything occludes it, eight rays together, which part where they go their own ways. Paths are
// written against its two calls: the bench puts a recorder in its place.
#pragma once

#include <embree3/rtcore.h>

#include <glm/glm.hpp>
#include <memory>
#include <span>

#include "scene/world/world.h"

namespace rakelight {

inline constexpr float kFar_mm = 1e8f;

/// A ray from a place along a unit direction, no farther than `most_mm`.
struct alignas(32) Ray {
    glm::vec3 from_mm;
    float most_mm;
    glm::vec3 direction;
};

/// Where a ray meets a triangle; u and v are the barycentric coordinates of its second and third corner.
struct alignas(32) Hit {
    float distance_mm = 0;
    std::uint32_t triangle = kNone;  ///< kNone: nothing met
    float u = 0;
    float v = 0;
    glm::vec3 geometric_normal{};  ///< not of unit length
};

/// A committed Embree scene over a world's own arrays, which must outlive it. Any number of threads may ask
/// it at once. Answers are the same to the bit on every machine with AVX2; a copy shares the tree. \throws
/// std::runtime_error when memory runs out or the processor lacks AVX2.
class Bvh {
  public:
    /// `world` is finished (see finish in world.h); its arrays are shared, not copied. `quickly`: the tree is
    /// made in less time, and asked in more; where two triangles lie equally near, the other may be met.
    explicit Bvh(const World& world, bool quickly = false);

    /// The nearest triangle along each ray, nearer than its reach; as many `hits` as rays. `coherent`: the
    /// rays keep close, as those of one pixel do.
    void intersect(std::span<const Ray> rays, std::span<Hit> hits, bool coherent) const;

    /// Whether anything stands within each ray's reach. As many `answers` as rays.
    void occluded(std::span<const Ray> rays, std::span<bool> answers) const;

    /// The nearest triangle along one ray; `triangle` is kNone when it meets nothing.
    Hit intersect(const Ray& ray) const;
    /// Whether anything stands within the reach of one ray.
    bool occluded(const Ray& ray) const;

  private:
    std::shared_ptr<RTCDeviceTy> device_;
    std::shared_ptr<RTCSceneTy> scene_;
};

}  // namespace rakelight
