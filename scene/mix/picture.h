// A mix after a picture: each piece takes the stock whose colour, as it will be laid, is nearest to the mean
// colour of the picture under the piece's own outline.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/surface.h"
#include "scene/model/field.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// A material as laid in a field: over its bed and beside its grout, face-on, under D65, what the face
/// mirrors left out.
struct LaidColour {
    std::uint32_t material = 0;  ///< index in Layout::stock
    Xyz xyz;                     ///< relative to a white of Y = 1
    Lab lab;
};

/// The colours of `materials`, indices in the layout's stock, on pieces of any outline. Not for two threads
/// at once.
class Palette {
  public:
    /// Keeps references to both.
    Palette(const Layout& layout, const Field& field, std::span<const std::uint32_t> materials);

    /// Of a piece with this edge over its area, 1/mm, in their order; stays as long as the palette.
    const std::vector<LaidColour>& of(double edge_per_mm);

  private:
    LaidColour laid(std::uint32_t material, const SideWall& side);

    const Layout& layout_;
    const Field& field_;
    std::vector<std::uint32_t> materials_;
    TristimulusWeights daylight_;
    InterfaceTables tables_;
    std::map<std::pair<std::uint32_t, double>, LaidColour> made_;  // by material and width
    std::map<std::vector<double>, std::vector<LaidColour>> rows_;  // by the widths of all
};

/// How near the laid pieces come to their picture, in CIEDE2000.
struct PictureReach {
    std::size_t pieces = 0;   ///< under the picture
    double mean = 0;          ///< of what is laid
    double nearest_mean = 0;  ///< of the nearest in the stock, had there been enough of all
    double worst = 0;         ///< of the nearest in the stock
    double off_by_5 = 0;      ///< share of pieces whose nearest is farther off than this
    double off_by_10 = 0;
    glm::dvec2 worst_at_mm{};          ///< centre of that piece
    Xyz worst_colour;                  ///< the picture's colour there
    std::uint32_t worst_material = 0;  ///< the nearest to it
    std::vector<std::size_t> laid;     ///< pieces of each of `MixPicture::from`
    std::vector<std::size_t> wanted;   ///< the same, had there been enough of all
    std::vector<std::size_t> limit;    ///< as given
};

/// Sets `material` of every piece by `field.picture`, which must be given. `limits`: the most pieces of each
/// of `MixPicture::from`. Without diffusion the sum of all differences is the least that the limits allow.
/// With it the pieces are taken in an order of chance, each against its own colour and what those before it
/// owe, the stock that is short held back for where it is missed most.
/// \throws LayoutError when the limits do not suffice, or when pieces lie off the picture and `elsewhere` is
/// not given.
PictureReach mix_picture(const Layout& layout, const Field& field, std::span<const std::size_t> limits,
                         std::uint64_t seed, std::span<Piece> pieces);

/// Lines for the artist: how near, what is out of reach and where, what ran out.
std::vector<std::string> describe(const PictureReach& reach, const Field& field, const Layout& layout);

}  // namespace rakelight
