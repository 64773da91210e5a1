// How much a face of given index and roughness mirrors as a whole, from every direction, worked out once:
// what is not mirrored enters the body, so this table is what keeps light from being lost or made.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace rakelight {

/// Directional albedo of one face, at nodes uniform in the square root of the cosine (which resolves
/// grazing).
struct FaceTable {
    static constexpr int kIntervals = 128;

    float index = 1;        ///< refractive index
    float alpha = 0;        ///< GGX roughness; 0 = a perfect mirror
    float mean_albedo = 0;  ///< over the hemisphere, cosine-weighted; exact for the interpolated table
    std::array<float, kIntervals + 1> nodes{};

    /// Share of the light from (or to) the direction of cosine `z`, 0..1, that the face mirrors.
    float albedo(float z) const {
        const float x = std::sqrt(z) * kIntervals;
        const int i = std::min(static_cast<int>(x), kIntervals - 1);
        const float below = nodes[static_cast<std::size_t>(i)];
        return below + (x - static_cast<float>(i)) * (nodes[static_cast<std::size_t>(i) + 1] - below);
    }
};

/// Roughness below this is a perfect mirror: its lobe (0.1 degree) is narrower than any lamp.
inline constexpr float kMirrorAlpha = 0.002f;

/// Albedo of single reflection off GGX facets with exact Fresnel, by quadrature over visible normals; error
/// about 1e-4. `index` in (1, 4], `alpha` in [0, 1]. \throws std::invalid_argument outside.
FaceTable make_face_table(float index, float alpha);

/// Mean over the hemisphere, cosine-weighted, of the interpolated nodes.
float mean_albedo(const FaceTable& table);

/// The tables of a picture, each made once. Addresses stay good as long as this lives. Not for two threads at
/// once.
class FaceTables {
  public:
    const FaceTable& get(float index, float alpha);
    /// Of leaf under `face`, or bare when there is none: see make_leaf_table.
    const FaceTable& leaf(const FaceTable* face, float alpha);

  private:
    std::map<std::pair<float, float>, FaceTable> tables_;
    std::map<std::tuple<float, float, float>, FaceTable> leaves_;
};

}  // namespace rakelight
