// Levels across the panel: thickness of pieces and the plane of their faces.
#pragma once

#include "materials/optics/material.h"
#include "scene/model/field.h"

namespace rakelight {

struct Layout;

/// Thickness of the pieces of a field that are of one material: the field's own, else the material's.
double piece_thickness_mm(const Field& field, const Material& material);

/// Height of the common plane of all faces above the substrate's front: the bed under the thickest piece.
double face_plane_mm(const Layout& layout);

}  // namespace rakelight
