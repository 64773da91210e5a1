// Directional albedo of a dielectric interface, smooth or GGX-rough, tabulated once for each index and
// roughness: what is not mirrored enters the base, so this table is what keeps light from being lost or made.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <glm/glm.hpp>
#include <map>
#include <tuple>
#include <vector>

#include "materials/optics/ggx.h"
#include "materials/optics/side_wall.h"

namespace rakelight {

struct Material;

/// Directional albedo of one interface, at nodes uniform in the square root of the cosine (which resolves
/// grazing). Of facets drawn out also at directions round the normal.
struct InterfaceTable {
    static constexpr int kIntervals = 128;
    static constexpr int kRound = 16;  ///< intervals of a quarter turn
    using Nodes = std::array<float, kIntervals + 1>;

    float index = 1;           ///< refractive index
    Slopes slopes{0, 1, 1};    ///< of the facets; alpha 0 = a perfect mirror
    float mean_albedo = 0;     ///< over the hemisphere, cosine-weighted; exact for the interpolated table
    Nodes nodes{};             ///< mean over all ways round
    std::vector<Nodes> round;  ///< of facets drawn out: at kRound + 1 values of `way_round`
    /// Whether the facets are drawn out, so that `round` is filled.
    bool anisotropic() const { return slopes.across != 1; }

    /// Where a direction lies on its way round, 0 (across the grain) to 1 (along it): a squared cosine in a
    /// plane that is drawn out half as much as the facets, where their albedo changes evenly.
    template <class Real>
    static Real way_round(Real x2, Real y2, Real along, Real across) {
        return x2 * along / (x2 * along + y2 * across + 1e-12f);
    }

    /// Share of the light from (or to) directions of cosine `z`, 0..1, that the interface mirrors, in the
    /// mean over all ways round.
    float albedo(float z) const { return at(nodes, z); }
    /// The same of one direction, unit, z > 0.
    float albedo(const glm::vec3& v) const {
        if (!anisotropic()) return at(nodes, v.z);
        const float w = kRound * way_round(v.x * v.x, v.y * v.y, slopes.along, slopes.across);
        const auto i = static_cast<std::size_t>(std::min(static_cast<int>(w), kRound - 1));
        const float below = at(round[i], v.z);
        return below + (w - static_cast<float>(i)) * (at(round[i + 1], v.z) - below);
    }

  private:
    static float at(const Nodes& nodes, float z) {
        const float x = std::sqrt(z) * kIntervals;
        const int i = std::min(static_cast<int>(x), kIntervals - 1);
        const float below = nodes[static_cast<std::size_t>(i)];
        return below + (x - static_cast<float>(i)) * (nodes[static_cast<std::size_t>(i) + 1] - below);
    }
};

/// Roughness below this is a perfect mirror: its lobe (0.1 degree) is narrower than any lamp.
inline constexpr float kMirrorAlpha = 0.002f;

/// The most that facets may be drawn out.
inline constexpr float kMostStretch = 16;

/// Albedo of single reflection off GGX facets with exact Fresnel, by quadrature over visible normals; error
/// about 1e-4. `index` in (1, 4], `alpha` in [0, 1], `stretch` (see slopes_of) in [1, 16].
/// \throws std::invalid_argument outside.
InterfaceTable make_interface_table(float index, float alpha, float stretch = 1);

/// Sets `nodes`, `round` and `mean_albedo` of a table from the albedo of its interface in each direction,
/// which is asked for by several threads at once.
void fill(InterfaceTable& table, const std::function<double(const glm::dvec3& out)>& albedo);

/// The tables of a picture, each made once. Addresses stay good as long as this lives. Not for two threads at
/// once.
class InterfaceTables {
  public:
    /// Made when first asked for. Arguments and exceptions as of make_interface_table.
    const InterfaceTable& get(float index, float alpha, float stretch = 1);
    /// Of leaf under `interface`, or bare when there is none: see make_leaf_table.
    const InterfaceTable& leaf(const InterfaceTable* interface, float alpha, float stretch = 1);

    /// Of the films of a material: mean of the bands, by its roughness (coat.h).
    const InterfaceTable& coat(const Material& material);

    /// What sides make of layers.
    SideWalks& side_walks() { return walks_; }

  private:
    SideWalks walks_;
    std::map<std::tuple<float, float, float>, InterfaceTable> tables_;
    std::map<std::tuple<float, float, float, float, float>, InterfaceTable> leaves_;
    std::map<std::vector<float>, InterfaceTable> coats_;
};

}  // namespace rakelight
