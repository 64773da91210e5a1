#include "materials/optics/leaf.h"

#include <stdexcept>
#include <string>

#include "materials/optics/facets.h"

namespace rakelight {

InterfaceTable make_leaf_table(const InterfaceTable* interface, float alpha, float stretch) {
    if (!(alpha >= 0.01f && alpha <= 1))
        throw std::invalid_argument("roughness of leaf " + std::to_string(alpha));
    if (!(stretch >= 1 && stretch <= kMostStretch))
        throw std::invalid_argument("stretch of leaf " + std::to_string(stretch));
    InterfaceTable table;
    table.index = interface ? interface->index : 1;
    table.slopes = slopes_of(alpha, stretch);
    fill(table, [&](const glm::dvec3& out) {
        return over_visible_facets(out, table.slopes, [&](double, double z_in) -> double {
            return interface ? 1 - interface->albedo(static_cast<float>(std::min(out.z, z_in))) : 1;
        });
    });
    return table;
}

}  // namespace rakelight
