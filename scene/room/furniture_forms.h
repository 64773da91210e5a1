// Plain pieces of furniture: boards and posts with eased edges. Usual sizes are common practice, no published
// source: a seat 450 mm high, a side table of 550 mm.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "scene/geometry/mesh.h"
#include "scene/model/room.h"

namespace rakelight {

struct Layout;

/// Words for them in layout files, in the order of `FurnitureForm`.
inline const std::vector<std::string> kFurnitureWords{"box", "bench", "table", "chair"};

/// Along x, up, along z.
glm::dvec3 usual_size_mm(FurnitureForm form);

/// Boards and posts, closed solids that touch, standing on y = 0 round the origin and filling its size; a
/// chair faces the panel's wall (-z).
std::vector<Mesh> furniture_boards(FurnitureForm form, const glm::dvec3& size_mm);
/// The same as one mesh.
Mesh furniture_mesh(FurnitureForm form, const glm::dvec3& size_mm);

/// Where a piece of that form usually stands: a bench below the work or before it, a table or a chair at the
/// wall beside it; clear of the panel, of doors, of what `standing` holds, and within the room. None: no such
/// place is free.
std::optional<glm::dvec3> usual_place_mm(const Furniture& piece, const Layout& layout,
                                         std::span<const Furniture> standing);

}  // namespace rakelight
