#include "output/take_off/reckoning/purchase.h"

#include <algorithm>
#include <cmath>

#include "scene/forms/piece_form.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"

namespace rakelight {

namespace {

double usual_waste(const TakeOffWishes& wishes, Stuff stuff) {
    const auto i = static_cast<std::size_t>(stuff);
    if (wishes.waste[i]) return *wishes.waste[i];
    const ShareSpan& span = kUsualWaste[i];
    switch (wishes.hand) {
        case Hand::sure:
            return span.low;
        case Hand::learning:
            return span.high;
        case Hand::usual:
            break;
    }
    return (span.low + span.high) / 2;
}

const Buying* buying(const TakeOffWishes& wishes, const std::string& name) {
    const auto it = wishes.buying.find(name);
    return it == wishes.buying.end() ? nullptr : &it->second;
}

// Rounds up, but not for the last bits of a sum.
int whole(double packs) {
    return static_cast<int>(std::ceil(packs - 1e-9));
}

void pack(Purchase& p, const Material& material, const TakeOffWishes& wishes) {
    const Buying* own = buying(wishes, material.name);
    p.by_sheet = own && own->bag_g ? false : own && own->sheet_mm ? true : material.kind == Kind::glass;
    p.picked = p.pieces == 0 && !own;
    double sold = 0;
    if (p.picked) {
        sold = material.cost.per == Cost::Per::kg ? p.bought_g / 1000 : p.bought_mm2 / 1e6;
    } else if (p.by_sheet) {
        p.sheet_mm = own && own->sheet_mm ? *own->sheet_mm : wishes.sheet_mm;
        const double sheet = p.sheet_mm.x * p.sheet_mm.y;
        p.packs = whole(p.bought_mm2 / sheet);
        sold = material.cost.per == Cost::Per::m2 ? p.packs * sheet / 1e6
                                                  : p.packs * sheet / p.bought_mm2 * p.bought_g / 1000;
    } else {
        p.bag_g = own && own->bag_g ? *own->bag_g : wishes.bag_g;
        p.packs = whole(p.bought_g / p.bag_g);
        sold = material.cost.per == Cost::Per::kg ? p.packs * p.bag_g / 1000
                                                  : p.packs * p.bag_g / p.bought_g * p.bought_mm2 / 1e6;
    }
    p.cost = sold * material.cost.amount;
    p.have = material.have_pieces;
}

}  // namespace

Stuff stuff_of(const Material& material, PieceForm form) {
    if (form == PieceForm::of_material) form = usual_form(material);
    if (form == PieceForm::pebble) return Stuff::pebbles;
    if (form == PieceForm::bead) return Stuff::beads;
    if (material.kind == Kind::glass) return form == PieceForm::riven ? Stuff::smalti : Stuff::sheet_glass;
    return material.kind == Kind::slag ? Stuff::slag : Stuff::stone;
}

bool cut_to_curves(const Field& field) {
    return rule_of(field.opus).cut_to_curves;
}

double waste_share(const TakeOffWishes& wishes, const Field& field, const Material& material,
                   PieceForm form) {
    if (const Buying* own = buying(wishes, material.name); own && own->waste) return *own->waste;
    return usual_waste(wishes, stuff_of(material, form)) + (cut_to_curves(field) ? wishes.curve_waste : 0);
}

std::vector<Purchase> purchases(const Layout& layout, const Laying& laying, const LaidVolumes& volumes,
                                const TakeOffWishes& wishes) {
    std::vector<Purchase> all(layout.stock.size());
    std::vector<double> wasted_mm2(all.size(), 0), wasted_g(all.size(), 0);
    const auto add = [&](std::uint32_t m, double mm2, double g, double waste) {
        all[m].net_mm2 += mm2;
        all[m].net_g += g;
        wasted_mm2[m] += waste * mm2;
        wasted_g[m] += waste * g;
    };
    const auto grams = [&](std::size_t i, const Material& m) {
        return volumes.solids[i].volume_mm3 / 1000 * static_cast<double>(m.density_g_per_cm3);
    };
    for (std::size_t i = 0; i < laying.pieces.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        const Material& m = layout.stock[piece.material];
        ++all[piece.material].pieces;
        add(piece.material, area_mm2(piece.outline_mm), grams(i, m),
            waste_share(wishes, layout.fields[piece.field], m, piece.form));
    }
    for (std::size_t s = 0; s < laying.stones.size(); ++s) {
        // Picked one by one and set whole: nothing is cut off.
        const SetStone& stone = laying.stones[s];
        const Material& m = layout.stock[stone.material];
        const Buying* own = buying(wishes, m.name);
        ++all[stone.material].stones;
        add(stone.material, area_mm2(stone.footprint_mm), grams(laying.pieces.size() + s, m),
            own && own->waste ? *own->waste : 0);
    }
    std::vector<Purchase> out;
    for (std::uint32_t m = 0; m < all.size(); ++m) {
        Purchase& p = all[m];
        const std::size_t count = p.pieces + p.stones;
        if (count == 0 || p.net_mm2 <= 0) continue;
        p.material = m;
        p.waste = wasted_mm2[m] / p.net_mm2;
        p.spare_pieces = p.pieces == 0 ? 0
                                       : std::max(wishes.least_spare,
                                                  whole(wishes.spare_share * static_cast<double>(p.pieces)));
        const double spare = static_cast<double>(p.spare_pieces) / static_cast<double>(count);
        p.bought_mm2 = p.net_mm2 * (1 + spare) + wasted_mm2[m] * (1 + spare);
        p.bought_g = p.net_g * (1 + spare) + wasted_g[m] * (1 + spare);
        pack(p, layout.stock[m], wishes);
        out.push_back(p);
    }
    return out;
}

}  // namespace rakelight
