#include "output/take_off/reckoning/cautions.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

#include "scene/model/layout.h"

namespace rakelight {

namespace {

bool any_tint(const std::vector<Material>& tints, Kind kind) {
    return std::any_of(tints.begin(), tints.end(), [&](const Material& m) { return m.kind == kind; });
}

std::string sentence(std::string line) {
    if (!line.empty()) line[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(line[0])));
    return line + '.';
}

std::vector<std::string> pigment_lines(const std::map<std::string, TintRecipe>& recipes) {
    std::vector<std::string> lines;
    for (const auto& [name, tint] : recipes)
        for (const std::string& line : handling_warnings(tint.recipe))
            if (std::find(lines.begin(), lines.end(), sentence(line)) == lines.end())
                lines.push_back(sentence(line));
    return lines;
}

}  // namespace

std::vector<Caution> cautions(const Layout& layout, const Weighing& weighing, const HangingLoad& load,
                              const std::vector<StoneAnchor>& anchors,
                              const std::map<std::string, TintRecipe>& recipes) {
    std::vector<Caution> out;
    if (!load.ask.empty())
        out.push_back({"Ask first", fmt::format("Hanging is for a licensed engineer, the local code and the "
                                                "building's owner, since {}.",
                                                fmt::join(load.ask, "; and "))});
    out.push_back({"This sheet",
                   "It reports weights and loads. It does not say that a wall, a fixing or a "
                   "person can carry them. Weigh the finished panel and label it."});
    out.push_back(
        {"Silica dust",
         "Cutting stone, slag and board, dry grout, pumice, blasting, sanding and sweeping raise respirable "
         "crystalline silica (OSHA limit 50 ug/m3 over 8 h, 29 CFR 1910.1053, or the limit of your "
         "country, which may be lower). Cut wet, extract, wear a fitted respirator, never sweep dry; never "
         "blast with silica sand."});
    const bool glass = std::any_of(layout.stock.begin(), layout.stock.end(), [](const Material& m) {
        return m.kind == Kind::glass || m.kind == Kind::slag;
    });
    if (glass) {
        out.push_back({"Glass",
                       "Eye cover and cut gloves when nipping and breaking; shards fly 1 to 3 m. Old "
                       "smalti, enamels and gold may hold lead, antimony, cadmium or selenium."});
        out.push_back(
            {"Kiln",
             "A full fuse runs near 800 C, a hot one at 1550 F (843 C): filtered eye cover, "
             "ventilation against binder fumes and fibre dust, nothing that burns nearby. The kiln's manual, "
             "fire and electrical codes come first."});
    }
    if (const auto lines = pigment_lines(recipes); !lines.empty())
        out.push_back({"Pigments, bases", fmt::format("{}", fmt::join(lines, " "))});
    if (any_tint(layout.tints, Kind::epoxy))
        out.push_back({"Epoxy",
                       "A skin sensitiser, often for life; amines burn; a pot of more than 200 g heats "
                       "itself. Nitrile gloves, ventilation."});
    if (any_tint(layout.tints, Kind::cement))
        out.push_back(
            {"Cement", "Wet grout is caustic (pH 12 to 13) and can sensitise skin: gloves, eye cover."});
    out.push_back({"Lifting",
                   load.cart ? fmt::format("Up to {:.0f} kg: a cart, and two people at least to hang it.",
                                           weighing.high_kg)
                   : load.people > 1
                       ? fmt::format("Up to {:.0f} kg: two people; 23 kg is the load constant of the revised "
                                     "NIOSH lifting equation.",
                                     weighing.high_kg)
                       : fmt::format("Up to {:.0f} kg; two people carry a panel more safely than one.",
                                     weighing.high_kg)});
    if (!anchors.empty())
        out.push_back(
            {"Stones",
             fmt::format("{} stone{} want{} more than glue: see the map. Edge distance at "
                         "least 3 pin diameters in stone, 20 mm in board.",
                         anchors.size(), anchors.size() == 1 ? "" : "s", anchors.size() == 1 ? "s" : "")});
    out.push_back({"Wall",
                   "Plasterboard alone is for the lightest work only: find studs or a backing. Lath, "
                   "hollow block and old brick are to be tested."});
    out.push_back({"Lamps", "Moving a lamp is for a qualified electrician and the local code."});
    out.push_back(
        {"Acid",
         "Acids for etching and cleaning burn skin and lungs: by their safety data sheet only; hydrofluoric "
         "acid is for licensed workshops. None on limestone, marble or leaf."});
    out.push_back(
        {"Sharp edges",
         "Common practice: proud edges lower than 1.8 m above the floor are ground to a radius of 0.5 mm "
         "or more."});
    return out;
}

}  // namespace rakelight
