#include "scene/model/levels.h"

#include <algorithm>

#include "scene/model/layout.h"

namespace rakelight {

double piece_thickness_mm(const Field& field, const Material& material) {
    return field.thickness_mm > 0 ? field.thickness_mm : static_cast<double>(material.thickness_mm);
}

double face_plane_mm(const Layout& layout) {
    double thickest = 0;
    for (const auto& field : layout.fields)
        for (const auto& part : field.mix)
            thickest = std::max(thickest, piece_thickness_mm(field, layout.stock[part.material]));
    return layout.panel.substrate.bed_mm + thickest;
}

}  // namespace rakelight
