#include "materials/face_table.h"

#include <boost/math/quadrature/gauss.hpp>
#include <stdexcept>
#include <string>

#include "materials/facets.h"
#include "materials/fresnel.h"
#include "materials/leaf.h"

namespace rakelight {
// Each interval is a line in x = sqrt(cosine), the weight 4 x^3.
float mean_albedo(const FaceTable& table) {
    double total = 0;
    for (int i = 0; i < FaceTable::kIntervals; ++i) {
        const double a = table.nodes[static_cast<std::size_t>(i)],
                     b = table.nodes[static_cast<std::size_t>(i) + 1];
        total += boost::math::quadrature::gauss<double, 7>::integrate(
            [&](double x) { return 4 * x * x * x * (a + (x * FaceTable::kIntervals - i) * (b - a)); },
            static_cast<double>(i) / FaceTable::kIntervals,
            static_cast<double>(i + 1) / FaceTable::kIntervals);
    }
    return static_cast<float>(total);
}

FaceTable make_face_table(float index, float alpha) {
    if (!(index > 1 && index <= 4)) throw std::invalid_argument("index of a face " + std::to_string(index));
    if (!(alpha >= 0 && alpha <= 1))
        throw std::invalid_argument("roughness of a face " + std::to_string(alpha));
    FaceTable table;
    table.index = index;
    table.alpha = alpha < kMirrorAlpha ? 0 : alpha;
    for (int i = 0; i <= FaceTable::kIntervals; ++i) {
        const double x = static_cast<double>(i) / FaceTable::kIntervals, z = x * x;
        const auto mirrored = [&](double toward) {
            return dielectric_reflectance(toward, static_cast<double>(index));
        };
        const double albedo =
            table.alpha > 0
                ? over_visible_facets(z, table.alpha, [&](double toward, double) { return mirrored(toward); })
                : mirrored(z);
        table.nodes[static_cast<std::size_t>(i)] = static_cast<float>(albedo);
    }
    table.mean_albedo = mean_albedo(table);
    return table;
}

const FaceTable& FaceTables::get(float index, float alpha) {
    const auto key = std::pair(index, alpha);
    if (const auto found = tables_.find(key); found != tables_.end()) return found->second;
    return tables_.emplace(key, make_face_table(index, alpha)).first->second;
}

const FaceTable& FaceTables::leaf(const FaceTable* face, float alpha) {
    const auto key = std::tuple(face ? face->index : 1, face ? face->alpha : 0, alpha);
    if (const auto found = leaves_.find(key); found != leaves_.end()) return found->second;
    return leaves_.emplace(key, make_leaf_table(face, alpha)).first->second;
}

}  // namespace rakelight
