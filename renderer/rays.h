// The two questions a light path asks of geometry, answered by Embree one ray at a time.
// `Rays` is what paths are written against: the bench puts a recorder in its place.
#pragma once

#include <embree3/rtcore.h>

#include <glm/glm.hpp>
#include <memory>

#include "scene/world.h"

namespace rakelight {

struct Hit {
    float distance_mm = 0;
    std::uint32_t triangle = kNone;  ///< kNone: nothing met
    float u = 0;
    float v = 0;
    glm::vec3 geometric_normal{};  ///< not of unit length
};

/// A committed Embree scene over a world's own arrays, which must outlive it.
/// \throws std::runtime_error with Embree's message when memory runs out.
class Rays {
  public:
    explicit Rays(const World& world);

    /// Nearest triangle along a unit direction from just beyond `from`, no farther than `most_mm`.
    Hit nearest(const glm::vec3& from_mm, const glm::vec3& direction, float most_mm) const {
        RTCRayHit query;
        fill(query.ray, from_mm, direction, most_mm);
        query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
        query.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
        RTCIntersectContext context;
        rtcInitIntersectContext(&context);
        rtcIntersect1(scene_.get(), &context, &query);
        if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return {};
        return {query.ray.tfar,
                query.hit.primID,
                query.hit.u,
                query.hit.v,
                {query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z}};
    }

    /// Whether anything stands within `most_mm` along a unit direction.
    bool blocked(const glm::vec3& from_mm, const glm::vec3& direction, float most_mm) const {
        RTCRay query;
        fill(query, from_mm, direction, most_mm);
        RTCIntersectContext context;
        rtcInitIntersectContext(&context);
        rtcOccluded1(scene_.get(), &context, &query);
        return query.tfar < 0;
    }

  private:
    static void fill(RTCRay& ray, const glm::vec3& from_mm, const glm::vec3& direction, float most_mm) {
        ray.org_x = from_mm.x;
        ray.org_y = from_mm.y;
        ray.org_z = from_mm.z;
        ray.tnear = 0;
        ray.dir_x = direction.x;
        ray.dir_y = direction.y;
        ray.dir_z = direction.z;
        ray.time = 0;
        ray.tfar = most_mm;
        ray.mask = 0xffffffffu;
        ray.id = 0;
        ray.flags = 0;
    }

    std::shared_ptr<RTCDeviceTy> device_;
    std::shared_ptr<RTCSceneTy> scene_;
};

}  // namespace rakelight
