// Colours that drawings and models show materials in: face-on, first-surface light excluded, as printed.
#pragma once

#include <map>
#include <string>
#include <tuple>

#include "materials/colour/colorimetry.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/surface.h"
#include "output/paper/tracing.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// Colours on demand, each made once.
class Paintbox {
  public:
    /// `light`: of find_illuminant.
    explicit Paintbox(const std::string& light);

    /// With nothing behind.
    Rgb8 of(const Material& material, double thickness_mm);

    /// As laid: over the bed of its field and between its joints, as on the stock sheet. `tone`: factor on
    /// the body's absorption, 1 = the usual piece.
    Rgb8 of(const Piece& piece, const Layout& layout, const Laying& laying, double tone = 1);

  private:
    using Key = std::tuple<const Material*, double, const Field*, double>;

    template <class MakeSide>
    Rgb8 made(const Key& key, MakeSide&& side, const SampledSpectrum& backing = {});
    Xyz xyz(const SampledSpectrum& reflectance) const;

    TristimulusWeights weights_;
    InterfaceTables tables_;
    std::map<Key, Rgb8> made_;
};

}  // namespace rakelight
