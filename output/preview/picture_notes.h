// The notes of a picture before it is traced: how much light falls on the panel, how wide a pixel is seen.
#pragma once

#include <cstdint>

#include "output/film/notes.h"
#include "renderer/rays.h"
#include "scene/model/layout.h"
#include "scene/world/world.h"

namespace rakelight {

/// Of a picture of a world in the light of `layout`. \throws RequestError when the layout lacks its viewpoint
/// or its exposure cannot be set (`check_exposure`).
PictureNotes notes_of(const Layout& layout, const World& world, const Rays& rays, const Picture& picture,
                      std::uint64_t scene_hash);

}  // namespace rakelight
