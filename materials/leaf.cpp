#include "materials/leaf.h"

#include <stdexcept>
#include <string>

#include "materials/facets.h"

namespace rakelight {

FaceTable make_leaf_table(const FaceTable* face, float alpha) {
    if (!(alpha >= 0.01f && alpha <= 1))
        throw std::invalid_argument("roughness of leaf " + std::to_string(alpha));
    FaceTable table;
    table.index = face ? face->index : 1;
    table.alpha = alpha;
    for (int i = 0; i <= FaceTable::kIntervals; ++i) {
        const double x = static_cast<double>(i) / FaceTable::kIntervals, z = x * x;
        table.nodes[static_cast<std::size_t>(i)] =
            static_cast<float>(over_visible_facets(z, alpha, [&](double, double z_in) -> double {
                return face ? 1 - face->albedo(static_cast<float>(std::min(z, z_in))) : 1;
            }));
    }
    table.mean_albedo = mean_albedo(table);
    return table;
}

}  // namespace rakelight
