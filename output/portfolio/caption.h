// What stands beside a finished work: its size, weight and the lines of a caption.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "output/portfolio/portfolio.h"
#include "output/take_off/reckoning/weighing.h"
#include "scene/laying/laying.h"
#include "scene/text/shown_units.h"

namespace rakelight {

struct Layout;

struct PanelFacts {
    std::string name;
    glm::dvec3 size_mm{};  ///< height, width, depth over all, frame and proudest stone included
    Weighing weight;
    std::string materials;         ///< in words
    Units units = Units::metric;   ///< that stand first
    std::vector<PanelFacts> each;  ///< of the panels of a divided work, from left to right; else empty
};

/// Weighed as the take-off does.
PanelFacts panel_facts(const Layout& layout, const Laying& laying, const WorkshopWishes& workshop);

/// "46.1 x 61.1 cm (18 1/8 x 24 in)", with multiplication signs: centimetres to a millimetre, inches (25.4
/// mm) to an eighth; the inches first where those are wanted.
std::string size_text(const std::vector<double>& sizes_mm, Units units = Units::metric);

/// "17.4 kg (38 lb)", a pound being 453.59237 g, or "38.4 lb (17.4 kg)".
std::string weight_text(double weight_kg, Units units = Units::metric);

/// "14.8 to 20.0 kg", or the same in pounds.
std::string weight_range_text(const Weighing& weight, Units units = Units::metric);

/// What the work is made of, from what the layout uses: "fused glass, slate, ...; cement grout ...".
std::string materials_text(const Layout& layout);

/// Lines of the caption, key and text, those without text left out: title, artist, year, materials, size,
/// weight and so on. Of several panels each has its own size and weight; materials are those of the first.
/// Precondition: at least one panel.
std::vector<std::pair<std::string, std::string>> caption_lines(const Caption& caption,
                                                               const std::vector<PanelFacts>& panels);

}  // namespace rakelight
