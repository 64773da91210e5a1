// The words of the take-off that its sheet, its lists and its JSON share.
#include <fmt/format.h>

#include <cctype>

#include "output/system/safe_file.h"
#include "output/take_off/sheet.h"

namespace rakelight {

double known_cost(const TakeOff& t) {
    double sum = 0;
    for (const Purchase& p : t.purchases) sum += p.cost;
    return sum;
}

std::string packs_text(const Purchase& p, Units units) {
    if (p.cast) return "cast from frit";
    if (p.picked) return fmt::format("{} stone{}, picked", p.stones, p.stones == 1 ? "" : "s");
    const char* s = p.packs == 1 ? "" : "s";
    return p.by_sheet ? fmt::format("{} sheet{} {} x {}", p.packs, s, shown_number(p.sheet_mm.x, units),
                                    shown_number(p.sheet_mm.y, units))
           : units == Units::inches
               ? fmt::format("{} bag{} of {:.3g} lb", p.packs, s, p.bag_g / 1000 / kPound_kg)
               : fmt::format("{} bag{} of {:g} kg", p.packs, s, p.bag_g / 1000);
}

std::string frit_text(const Casting& c) {
    std::string text;
    for (const auto& [name, g] : {std::pair(&c.shade.from, c.from_g), {&c.shade.to, c.to_g}})
        if (g > 0) text += fmt::format("{}{:.0f} g of {}", text.empty() ? "" : " + ", g, *name);
    return text;
}

std::string leaf_text(Leaf leaf) {
    return leaf == Leaf::gold ? "gold leaf" : leaf == Leaf::silver ? "silver leaf" : "copper leaf";
}

std::string pigments_text(const Batch& batch) {
    std::string text;
    for (const PigmentGrams& p : batch.pigments)
        text += fmt::format("{}{} {:.1f} g", text.empty() ? "" : ", ", p.name, p.grams);
    return text.empty() ? "no pigment" : text;
}

std::string template_name(const TakeOff& t, std::size_t zone) {
    return fmt::format("zone-{}-{}", t.step_of(zone), file_stem(t.zones[zone].name));
}

std::string sentence(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text + '.';
}

std::string reason_text(const TakeOff& t, const OrderEdge& edge) {
    const auto name = [&](std::size_t z) -> const std::string& { return t.zones[z].name; };
    const std::string pair = fmt::format("{} before {}", name(edge.before), name(edge.after));
    switch (edge.why) {
        case OrderEdge::Why::wish:
            return pair + ": as the layout asks";
        case OrderEdge::Why::pores:
            return pair + ": its open pores would drink the other's grout";
        case OrderEdge::Why::lighter:
            break;
    }
    return fmt::format("{}: lighter by {:.0f} L*", pair, edge.by);
}

}  // namespace rakelight
