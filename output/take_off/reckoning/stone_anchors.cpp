#include "output/take_off/reckoning/stone_anchors.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/forms/piece_form.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/pieces/piece_table.h"

namespace rakelight {

namespace {

constexpr double kCrumbly_g_per_cm3 = 2.0;

std::vector<std::string> reasons(const StoneAnchor& stone) {
    std::vector<std::string> out;
    if (stone.mass_g < kNoAnchor_g) return out;
    const double out_mm = stone.tall_mm - stone.deep_mm, pull = stone.mass_g * stone.lever_mm;
    if (stone.mass_g > kBoltFrom_g)
        out.push_back(fmt::format("{:.0f} g, over {:.0f} g", stone.mass_g, kBoltFrom_g));
    else if (stone.mass_g > kAnchorFrom_g && stone.deep_mm < stone.tall_mm / 2)
        out.push_back(fmt::format("{:.0f} g, over {:.0f} g, set {:.0f} of {:.0f} mm deep", stone.mass_g,
                                  kAnchorFrom_g, stone.deep_mm, stone.tall_mm));
    if (stone.proud_mm > kAnchorProud_mm && out_mm > stone.deep_mm)
        out.push_back(fmt::format("{:.0f} mm proud, over {:.0f} mm, on {:.0f} mm in the bed", stone.proud_mm,
                                  kAnchorProud_mm, stone.deep_mm));
    if (pull > kAnchorPull_g_mm)
        out.push_back(fmt::format("{:.0f} g by {:.0f} mm out of its bed", stone.mass_g, stone.lever_mm));
    return out;
}

std::string usual_anchor(const StoneAnchor& stone, const Material& material) {
    if (stone.mass_g > kBoltFrom_g) return "bolt through the board into a strut";
    if (static_cast<double>(material.density_g_per_cm3) < kCrumbly_g_per_cm3)
        return "keyed by its pores in the bed; pins take shear only";
    return "two stainless pins of 2 to 4 mm, 8 to 15 mm into the stone, in epoxy";
}

}  // namespace

std::vector<StoneAnchor> stone_anchors(const Layout& layout, const Laying& laying,
                                       const LaidVolumes& volumes) {
    const double plane = face_plane_mm(layout);
    std::vector<StoneAnchor> out;
    const auto consider = [&](StoneAnchor stone, std::size_t solid, double top_mm, std::uint32_t field) {
        const Material& m = layout.stock[stone.material];
        stone.mass_g = volumes.solids[solid].volume_mm3 / 1000 * static_cast<double>(m.density_g_per_cm3);
        stone.off_board_mm = volumes.solids[solid].centre_mm.z;
        const double surface = volumes.fields[field].surface_mm;
        stone.deep_mm = std::clamp(surface - (top_mm - stone.tall_mm), 0.0, stone.tall_mm);
        stone.lever_mm = stone.off_board_mm - surface;
        stone.reasons = reasons(stone);
        if (stone.reasons.empty()) return;
        stone.how = usual_anchor(stone, m);
        stone.number = out.size() + 1;
        out.push_back(std::move(stone));
    };
    for (std::size_t s = 0; s < laying.stones.size(); ++s) {
        const SetStone& set = laying.stones[s];
        StoneAnchor stone;
        stone.id = piece_id("", static_cast<std::uint32_t>(s + 1));
        stone.material = set.material;
        stone.at_mm = centroid(set.footprint_mm);
        stone.outline_mm = set.footprint_mm;
        stone.proud_mm = set.top_mm - plane;
        stone.tall_mm = set.stone.size_mm.z;
        consider(std::move(stone), laying.pieces.size() + s, set.top_mm, volumes.stone_field[s]);
    }
    for (std::size_t i = 0; i < laying.pieces.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        if (!is_lump(piece.form)) continue;
        StoneAnchor stone;
        stone.id = piece_id(layout.fields[piece.field].name, piece.number);
        stone.material = piece.material;
        stone.at_mm = centroid(piece.outline_mm);
        stone.outline_mm = piece.outline_mm;
        stone.proud_mm = piece.top_mm - plane;
        stone.tall_mm = piece.thickness_mm;
        consider(std::move(stone), i, piece.top_mm, piece.field);
    }
    return out;
}

}  // namespace rakelight
