#include "output/compare/corrected.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "materials/stock/looks.h"
#include "output/stock/library_entry.h"
#include "output/system/errors.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"

namespace rakelight {
namespace {

constexpr double kNoticeable = 1;  // CIEDE2000

std::string entry(const std::string& name, const Material& m, const Correction& c) {
    return fmt::format("  # {} was off by CIEDE2000 {:.1f}\n  {}:\n{}{}    provenance: guessed\n", c.name,
                       c.delta_e, quoted_key(name), body_text(m), face_text(m));
}

/// How a material lies where most of it lies: its mean thickness, and the bed of the most pieces.
WantedLook as_laid(const Layout& layout, const Laying& laying, std::uint32_t material, const Material& m) {
    std::map<std::uint32_t, std::size_t> beds;
    double sum = 0;
    std::size_t count = 0;
    for (const Piece& p : laying.pieces) {
        if (p.material != material) continue;
        sum += p.thickness_mm;
        ++count;
        ++beds[layout.fields[p.field].bed];
    }
    WantedLook look{{}, m.thickness_mm, SampledSpectrum(0.8f)};
    if (count == 0) return look;
    look.thickness_mm = sum / static_cast<double>(count);
    const auto most = std::max_element(beds.begin(), beds.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    look.behind = layout.tints[most->first].reflectance;
    return look;
}

/// The colour that the body has under D65, times what the photograph's body has over the picture's.
Lab moved_lab(const Material& m, const WantedLook& look, const ComparedArea& area) {
    InterfaceTables faces;
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
    const auto seen = integrate(weights, face_on_reflectance(m, look.thickness_mm, look.behind, 1, faces));
    const auto white = integrate(weights, SampledSpectrum(1));
    std::array<double, 3> moved{};
    for (int i = 0; i < 3; ++i) {
        const auto k = static_cast<std::size_t>(i);
        const double mirrored = area.mirrored * area.picture_xyz.y * static_cast<double>(white[k]) / white[1];
        const double before = area.picture_xyz[i] - mirrored, after = area.photo_xyz[i] - mirrored;
        const double ratio = before > 1e-5 ? std::clamp(after / before, 0.1, 10.0) : 1;
        moved[k] = static_cast<double>(seen[k]) * ratio;
    }
    return xyz_to_lab({moved[0], moved[1], moved[2]}, {white[0], white[1], white[2]});
}

struct Found {
    const Material* material = nullptr;
    std::uint32_t index = 0;
    bool tint = false;
};
Found found_in(const Layout& layout, const ComparedArea& area) {
    const auto& shelf = area.pieces ? layout.stock : layout.tints;
    for (std::uint32_t i = 0; i < shelf.size(); ++i)
        if (shelf[i].name == area.name) return {&shelf[i], i, !area.pieces};
    return {};
}

std::string why_not(const Material& m) {
    if (m.leaf != Leaf::none) return "metal leaf has a colour of its own";
    if (!m.sheets.empty() || m.backed) return "a stack of several layers";
    if (m.haze > 0 || m.filmed) return "a finish lies over its colour";
    return "";
}

}  // namespace

Corrected corrected_stock(const Compared& compared, const Layout& layout, const Laying& laying,
                          const std::string& photo, const std::string& picture) {
    Corrected r;
    std::string stock, tints;
    for (const ComparedArea& area : compared.materials) {
        if (area.delta_e < kNoticeable) continue;
        const Found found = found_in(layout, area);
        if (!found.material) continue;  // the frame, the wall
        Correction c{area.name, "", found.tint, area.delta_e, 0, why_not(*found.material)};
        if (c.why_not.empty()) {
            WantedLook look = found.tint ? WantedLook{{}, found.material->thickness_mm, SampledSpectrum(0.5f)}
                                         : as_laid(layout, laying, found.index, *found.material);
            look.lab = moved_lab(*found.material, look, area);
            const Looking moved = looking_like(*found.material, look);
            c.left = moved.delta_e;
            c.new_name = area.name + "-as-seen";
            (found.tint ? tints : stock) += entry(c.new_name, moved.material, c);
        }
        r.entries.push_back(std::move(c));
    }
    if (stock.empty() && tints.empty())
        throw RequestError(
            "--correct: found no material of the layout that is off by CIEDE2000 1 and can be corrected");
    r.yaml = fmt::format(
        "# Moved from {} by what {} shows. In a layout: `stock from:` and the name of this file,\n"
        "# and these names in place of those without -as-seen.\n",
        picture, photo);
    if (!stock.empty()) r.yaml += "stock:\n" + stock;
    if (!tints.empty()) r.yaml += "tints:\n" + tints;
    return r;
}

}  // namespace rakelight
