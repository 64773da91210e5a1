// The page of a dossier that says what a panel is made of.
#include <fmt/format.h>

#include <map>

#include "output/portfolio/dossier_page.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kChip_mm = 9, kRow_mm = 12.2;

EncodedSrgb colour_of(const Rgb8& c) {
    return {c[0] / 255.0, c[1] / 255.0, c[2] / 255.0};
}

// As first laid: over its bed, face-on.
std::map<std::uint32_t, Rgb8> colours_as_laid(const DossierPanel& panel, const Laying& laying) {
    std::map<std::uint32_t, Rgb8> colours;
    for (std::size_t i = 0; i < laying.stones.size(); ++i)
        colours.try_emplace(laying.stones[i].material, panel.laid.stone_colour[i]);
    for (std::size_t i = 0; i < laying.pieces.size(); ++i)
        colours.try_emplace(laying.pieces[i].material, panel.laid.piece_colour[i]);
    return colours;
}

void chip(Page& page, const glm::dvec2& at, const EncodedSrgb& colour) {
    page.boxes.push_back({at, {kChip_mm, kChip_mm}, colour});
}

std::string spaced(std::string name) {
    std::replace(name.begin(), name.end(), '-', ' ');
    return name;
}

const char* kind_word(Kind kind) {
    switch (kind) {
        case Kind::glass:
            return "glass";
        case Kind::stone:
            return "stone";
        case Kind::slag:
            return "slag";
        case Kind::cement:
            return "cement";
        case Kind::epoxy:
            return "epoxy";
        case Kind::timber:
            return "timber";
        case Kind::paint:
            break;
    }
    return "";
}

}  // namespace

PdfPage materials_page(const DossierPanel& panel) {
    PdfPage p = blank_page();
    Page& page = p.page;
    const Layout& layout = *panel.layout;
    write_heading(page, fmt::format("Materials of {}", panel.facts.name));
    const std::map<std::uint32_t, Rgb8> colours = colours_as_laid(panel, lay(layout));
    const double top = kDossierTop_mm + 14;
    constexpr int kRows = 11;
    constexpr double kColumn_mm = 86;
    int n = 0;
    for (const LaidCount& laid : panel.laid.materials) {
        const Material& m = layout.stock[laid.material];
        const glm::dvec2 at(kDossierMargin_mm + n / kRows * kColumn_mm, top + n % kRows * kRow_mm);
        if (const auto colour = colours.find(laid.material); colour != colours.end())
            chip(page, at, colour_of(colour->second));
        const std::string kind = kind_word(m.kind), name = spaced(m.name);
        page.texts.push_back({name, at + glm::dvec2(kChip_mm + 4, 3.9), 3.0, true, Align::left, kDossierInk});
        page.texts.push_back(
            {fmt::format("{}{}{} piece{}, {:.1f} % of the face, {:.2f} kg", name == kind ? "" : kind,
                         name == kind ? "" : ", ", laid.count, laid.count == 1 ? "" : "s",
                         100 * laid.area_mm2 / panel.laid.panel_mm2, laid.mass_g / 1000),
             at + glm::dvec2(kChip_mm + 4, 8.2), 2.5, false, Align::left, kDossierGrey});
        ++n;
    }
    // Grout by zone, as laid.
    const double x = kDossierMargin_mm + 2 * kColumn_mm;
    double y = top;
    std::vector<std::string> zones;
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const Field& field = layout.fields[f];
        if (!field.grout || std::find(zones.begin(), zones.end(), field.zone) != zones.end()) continue;
        zones.push_back(field.zone);
        chip(page, {x, y}, colour_of(panel.laid.joint_colour[f]));
        page.texts.push_back({"Grout: " + spaced(field.zone),
                              {x + kChip_mm + 4, y + 3.9},
                              3.0,
                              true,
                              Align::left,
                              kDossierInk});
        page.texts.push_back({"tint " + spaced(layout.tints[*field.grout].name) + ", over bed " +
                                  spaced(layout.tints[field.bed].name),
                              {x + kChip_mm + 4, y + 8.2},
                              2.5,
                              false,
                              Align::left,
                              kDossierGrey});
        y += kRow_mm;
    }
    y += 3;
    y = write_lines(page,
                    fmt::format("{} pieces and {} stones are laid; joints are {:.0f} % of the face.",
                                panel.laid.facts.size() - panel.laid.stone_count, panel.laid.stone_count,
                                100 * panel.laid.joint_share()),
                    {x, y + 4}, kDossierPage_mm.x - kDossierMargin_mm - x, 2.7, kDossierInk);
    write_lines(
        page,
        "Colours are face-on in daylight (D65), glass over its bed, grout cured and dry. Glass and pigment "
        "vary from batch to batch: samples decide.",
        {x, y + 3}, kDossierPage_mm.x - kDossierMargin_mm - x, 2.5, kDossierGrey);
    return p;
}

}  // namespace rakelight
