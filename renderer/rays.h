// The two questions light paths ask of geometry, answered by Embree: one ray at a time where rays go their
// own ways, sixteen together where they start or end together. `Rays` is what paths are written against: the
// bench puts a recorder in its place.
#pragma once

#include <embree3/rtcore.h>

#include <glm/glm.hpp>
#include <memory>
#include <span>

#include "scene/world/world.h"

namespace rakelight {

inline constexpr float kFar_mm = 1e8f;

/// A ray: from a place along a unit direction, no farther than `most_mm`.
struct RayQuestion {
    glm::vec3 from_mm;
    float most_mm;
    glm::vec3 direction;
};

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

    /// The nearest triangle along each ray. `together`: the rays keep close, as those of one pixel do.
    void nearest(std::span<const RayQuestion> questions, std::span<Hit> hits, bool together) const;

    /// Whether anything stands within each ray's reach.
    void blocked(std::span<const RayQuestion> questions, std::span<bool> answers) const;

    /// One ray at a time.
    Hit nearest(const RayQuestion& question) const;
    bool blocked(const RayQuestion& question) const;

  private:
    std::shared_ptr<RTCDeviceTy> device_;
    std::shared_ptr<RTCSceneTy> scene_;
};

}  // namespace rakelight
