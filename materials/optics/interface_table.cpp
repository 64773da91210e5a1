#include "materials/optics/interface_table.h"

#include <tbb/parallel_for.h>

#include <boost/math/quadrature/gauss.hpp>
#include <glm/gtc/constants.hpp>
#include <stdexcept>
#include <string>

#include "materials/optics/facets.h"
#include "materials/optics/fresnel.h"
#include "materials/optics/leaf.h"

namespace rakelight {
namespace {

// Each interval is a line in x = sqrt(cosine), the weight 4 x^3.
float mean_of(const InterfaceTable& table) {
    double total = 0;
    for (int i = 0; i < InterfaceTable::kIntervals; ++i) {
        const double a = table.nodes[static_cast<std::size_t>(i)],
                     b = table.nodes[static_cast<std::size_t>(i) + 1];
        total += boost::math::quadrature::gauss<double, 7>::integrate(
            [&](double x) { return 4 * x * x * x * (a + (x * InterfaceTable::kIntervals - i) * (b - a)); },
            static_cast<double>(i) / InterfaceTable::kIntervals,
            static_cast<double>(i + 1) / InterfaceTable::kIntervals);
    }
    return static_cast<float>(total);
}

// The mean over all ways round of what `InterfaceTable::albedo` makes of the nodes at one cosine.
float mean_round(const InterfaceTable& table, float z) {
    constexpr int kSteps = 512;
    double mean = 0;
    for (int k = 0; k < kSteps; ++k) {
        const double phi = (k + 0.5) / kSteps * glm::half_pi<double>(), flat = std::sqrt(1 - z * z);
        mean += table.albedo(glm::vec3(flat * std::cos(phi), flat * std::sin(phi), z)) / kSteps;
    }
    return static_cast<float>(mean);
}

}  // namespace

void fill(InterfaceTable& table, const std::function<double(const glm::dvec3& out)>& albedo) {
    const auto cosine = [](std::size_t i) {
        const double x = static_cast<double>(i) / InterfaceTable::kIntervals;
        return x * x;
    };
    const auto along = [&](std::size_t i, double cos_phi2) {
        const double z = cosine(i), flat2 = 1 - z * z;
        return static_cast<float>(
            albedo({std::sqrt(flat2 * cos_phi2), std::sqrt(flat2 * (1 - cos_phi2)), z}));
    };
    if (table.anisotropic()) {
        table.round.resize(InterfaceTable::kRound + 1);
        tbb::parallel_for(std::size_t{0}, table.round.size(), [&](std::size_t k) {
            const double way = static_cast<double>(k) / InterfaceTable::kRound;
            const double x2 = way * table.slopes.across, y2 = (1 - way) * table.slopes.along;
            for (std::size_t i = 0; i <= InterfaceTable::kIntervals; ++i)
                table.round[k][i] = along(i, x2 / (x2 + y2));
        });
    }
    tbb::parallel_for(std::size_t{0}, table.nodes.size(), [&](std::size_t i) {
        table.nodes[i] = table.anisotropic() ? mean_round(table, static_cast<float>(cosine(i))) : along(i, 1);
    });
    table.mean_albedo = mean_of(table);
}

InterfaceTable make_interface_table(float index, float alpha, float stretch) {
    if (!(index > 1 && index <= 4))
        throw std::invalid_argument("index of an interface " + std::to_string(index));
    if (!(alpha >= 0 && alpha <= 1))
        throw std::invalid_argument("roughness of an interface " + std::to_string(alpha));
    if (!(stretch >= 1 && stretch <= kMostStretch))
        throw std::invalid_argument("stretch of an interface " + std::to_string(stretch));
    InterfaceTable table;
    table.index = index;
    table.slopes = alpha < kMirrorAlpha ? slopes_of(0) : slopes_of(alpha, stretch);
    const auto mirrored = [&](double toward) {
        return dielectric_reflectance(toward, static_cast<double>(index));
    };
    fill(table, [&](const glm::dvec3& out) {
        return table.slopes.alpha > 0
                   ? over_visible_facets(out, table.slopes,
                                         [&](double toward, double) { return mirrored(toward); })
                   : mirrored(out.z);
    });
    return table;
}

const InterfaceTable& InterfaceTables::get(float index, float alpha, float stretch) {
    const auto key = std::tuple(index, alpha, stretch);
    if (const auto found = tables_.find(key); found != tables_.end()) return found->second;
    return tables_.emplace(key, make_interface_table(index, alpha, stretch)).first->second;
}

const InterfaceTable& InterfaceTables::leaf(const InterfaceTable* interface, float alpha, float stretch) {
    const auto key = std::tuple(interface ? interface->index : 1, interface ? interface->slopes.alpha : 0,
                                interface ? interface->slopes.across : 1, alpha, stretch);
    if (const auto found = leaves_.find(key); found != leaves_.end()) return found->second;
    return leaves_.emplace(key, make_leaf_table(interface, alpha, stretch)).first->second;
}

}  // namespace rakelight
