#include "scene/pieces/piece_facts.h"

#include <tbb/parallel_for.h>

#include "scene/forms/forms.h"
#include "scene/geometry/region.h"
#include "scene/geometry/solid.h"

namespace rakelight {

namespace {

double mass_g(const Mesh& mesh, const Material& material) {
    return volume_mm3(mesh) * static_cast<double>(material.density_g_per_cm3) / 1000;
}

PieceFacts facts_of(const Piece& piece, const Material& material) {
    PieceFacts facts;
    facts.centre_mm = centroid(piece.outline_mm);
    facts.area_mm2 = area_mm2(piece.outline_mm);
    Box box;
    const glm::dvec2 across(-piece.along.y, piece.along.x);
    for (const auto& p : piece.outline_mm) box.add({glm::dot(p, piece.along), glm::dot(p, across)});
    facts.length_mm = box.size().x;
    facts.width_mm = box.size().y;
    facts.mass_g = mass_g(form_piece(piece, material), material);
    return facts;
}

PieceFacts facts_of(const SetStone& set, const Material& material) {
    return {set.stone.at_mm, set.stone.size_mm.x, set.stone.size_mm.y, area_mm2(set.footprint_mm),
            mass_g(form_stone(set, material), material)};
}

}  // namespace

std::vector<PieceFacts> piece_facts(const std::vector<Material>& stock, const Laying& laying) {
    const std::size_t pieces = laying.pieces.size();
    std::vector<PieceFacts> facts(pieces + laying.stones.size());
    tbb::parallel_for(std::size_t{0}, facts.size(), [&](std::size_t i) {
        const auto of = [&](const auto& laid) { return facts_of(laid, stock[laid.material]); };
        facts[i] = i < pieces ? of(laying.pieces[i]) : of(laying.stones[i - pieces]);
    });
    return facts;
}

}  // namespace rakelight
