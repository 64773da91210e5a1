// What is to be bought: area and weight as laid, waste by what is cut and how the rows run, spares, whole
// sheets and bags, money.
#pragma once

#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "output/take_off/reckoning/laid_volumes.h"
#include "output/take_off/reckoning/workshop.h"
#include "scene/model/field.h"

namespace rakelight {

struct Layout;

struct Purchase {
    std::uint32_t material = 0;  ///< index in Layout::stock
    bool by_sheet = false;       ///< else by weight
    bool picked = false;         ///< stones alone: one by one
    bool cast = false;           ///< from frit (kiln_ladders.h): in no packs
    std::size_t pieces = 0;
    std::size_t stones = 0;
    double net_mm2 = 0;  ///< faces of pieces, footprints of stones
    double net_g = 0;    ///< from the volumes of the meshes
    double waste = 0;    ///< share of what is laid, in the mean
    int spare_pieces = 0;
    double bought_mm2 = 0;  ///< with waste and spares
    double bought_g = 0;
    glm::dvec2 sheet_mm{0};  ///< of one sheet
    double bag_g = 0;        ///< of one bag
    int packs = 0;           ///< whole sheets or bags
    double cost = 0;         ///< in the artist's own money, of the whole sheets or bags; 0 = not known
    int have = -1;           ///< pieces there are; negative = nobody said
};

/// What the pieces of a material are cut from, as waste goes. Glass split to its fracture is smalti.
Stuff stuff_of(const Material& material, PieceForm form);

/// Do rows of this opus bend, so that pieces are cut to wedges and ends?
bool cut_to_curves(const Field& field);

/// Waste for one piece of a field: share of what is laid.
double waste_share(const TakeOffWishes& wishes, const Field& field, const Material& material, PieceForm form);

/// One a material that is laid, in the order of the stock.
std::vector<Purchase> purchases(const Layout& layout, const Laying& laying, const LaidVolumes& volumes,
                                const TakeOffWishes& wishes);

}  // namespace rakelight
