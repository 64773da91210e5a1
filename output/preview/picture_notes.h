// The notes of a picture before it is traced: how much light falls on the panel, how wide a pixel is seen.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "output/film/notes.h"
#include "renderer/bvh.h"
#include "scene/model/views.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

/// XYZ of illuminance as notes have it, and as the meter reads it.
std::vector<Xyz> noted_illuminance(std::span<const glm::dvec3> xyz);

/// What `RenderOptions::card_cd_per_m2` wants to be, of a picture whose light is noted: it is metered once.
double card_cd_per_m2(const PictureNotes& notes);

/// Of a picture of a world in the light of `layout`. \throws RequestError when the layout lacks its viewpoint
/// or its exposure cannot be set (`check_exposure`).
PictureNotes notes_of(const Layout& layout, const World& world, const Bvh& bvh, const Picture& picture,
                      std::uint64_t scene_hash);

}  // namespace rakelight
