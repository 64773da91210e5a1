#include "output/portfolio/caption.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/take_off/reckoning/grout_regions.h"
#include "output/take_off/reckoning/panels_apart.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

namespace {

std::string inches(double mm) {
    const long eighths = std::lround(mm / kInch_mm * 8);
    const long whole = eighths / 8, rest = eighths % 8;
    if (rest == 0) return fmt::format("{}", whole);
    const long divisor = rest % 4 == 0 ? 4 : rest % 2 == 0 ? 2 : 1;
    const std::string fraction = fmt::format("{}/{}", rest / divisor, 8 / divisor);
    return whole > 0 ? fmt::format("{} {}", whole, fraction) : fraction;
}

std::string spaced(std::string name) {
    std::replace(name.begin(), name.end(), '-', ' ');
    return name;
}

void add_once(std::vector<std::string>& list, std::string word) {
    if (std::find(list.begin(), list.end(), word) == list.end()) list.push_back(std::move(word));
}

}  // namespace

std::string materials_text(const Layout& layout) {
    std::vector<std::string> laid, setting;
    const auto use = [&](const Material& m) {
        add_once(laid, m.kind == Kind::glass ? "fused glass" : spaced(m.name));
    };
    for (const Field& field : layout.fields)
        for (const MixPart& part : field.mix) use(layout.stock[part.material]);
    for (const PlacedStone& stone : layout.stones) use(layout.stock[stone.material]);
    const auto kind_of = [&](std::uint32_t tint, std::string_view what) {
        const bool epoxy = layout.tints[tint].kind == Kind::epoxy;
        add_once(setting, fmt::format("tinted {} {}", epoxy ? "epoxy" : "cement", what));
    };
    for (const Field& field : layout.fields)
        if (field.grout) kind_of(*field.grout, "grout");
    for (const Field& field : layout.fields) kind_of(field.bed, "bed");
    add_once(setting, "on " + spaced(layout.stock[layout.panel.substrate.material].name));
    if (layout.panel.frame)
        add_once(setting, spaced(layout.stock[layout.panel.frame->material].name) + " frame");
    return fmt::format("{}; {}", fmt::join(laid, ", "), fmt::join(setting, ", "));
}

PanelFacts panel_facts(const Layout& layout, const Laying& laying, const WorkshopWishes& workshop) {
    PanelFacts facts;
    facts.name = layout.panel.name;
    facts.units = layout.units;
    double front = face_plane_mm(layout) + (layout.panel.frame ? layout.panel.frame->proud_mm : 0);
    for (const Piece& piece : laying.pieces) front = std::max(front, piece.top_mm);
    for (const SetStone& stone : laying.stones) front = std::max(front, stone.top_mm);
    const glm::dvec2 outer = 2.0 * outer_half_mm(layout.panel, 0);
    facts.size_mm = {outer.y, outer.x, layout.panel.substrate.thickness_mm + front};
    facts.materials = materials_text(layout);
    if (!layout.panel.divided) {
        facts.weight = weigh(layout, laying, workshop);
        return facts;
    }
    std::vector<Ring> footprints;
    for (const SetStone& stone : laying.stones) footprints.push_back(stone.footprint_mm);
    const auto regions = grout_regions(layout, grounds_on_panel(layout, footprints), footprints);
    const LaidVolumes volumes = laid_volumes(layout, laying, regions, workshop.take_off.bed_rise);
    facts.weight = weigh(layout, laying, volumes, workshop.hanging);
    for (const PanelApart& panel : panels_apart(layout, laying, volumes, regions, workshop.hanging)) {
        PanelFacts own{panel.span.name, facts.size_mm, panel.weighing, facts.materials, facts.units, {}};
        own.size_mm.y = 2 * outer_half_mm(panel_of(layout.panel, panel.span), 0).x;
        facts.each.push_back(std::move(own));
    }
    return facts;
}

std::string size_text(const std::vector<double>& sizes_mm, Units units) {
    std::vector<std::string> cm, in;
    for (const double mm : sizes_mm) {
        cm.push_back(fmt::format("{:.1f}", mm / 10));
        in.push_back(inches(mm));
    }
    if (units == Units::inches)
        return fmt::format("{} in ({} cm)", fmt::join(in, " × "), fmt::join(cm, " × "));
    return fmt::format("{} cm ({} in)", fmt::join(cm, " × "), fmt::join(in, " × "));
}

std::string weight_text(double weight_kg, Units units) {
    const double pounds = weight_kg / kPound_kg;
    if (units == Units::inches) return fmt::format("{:.1f} lb ({:.1f} kg)", pounds, weight_kg);
    return fmt::format("{:.1f} kg ({:.0f} lb)", weight_kg, pounds);
}

std::string weight_range_text(const Weighing& weight, Units units) {
    if (units == Units::inches)
        return fmt::format("{:.1f} to {:.1f} lb", weight.low_kg / kPound_kg, weight.high_kg / kPound_kg);
    return fmt::format("{:.1f} to {:.1f} kg", weight.low_kg, weight.high_kg);
}

std::vector<std::pair<std::string, std::string>> caption_lines(const Caption& c,
                                                               const std::vector<PanelFacts>& panels) {
    std::vector<std::pair<std::string, std::string>> lines;
    const auto add = [&](const std::string& key, const std::string& text) {
        if (!text.empty()) lines.emplace_back(key, text);
    };
    add("Title", c.title);
    add("Artist", c.artist);
    add("Year", c.year);
    add("Materials", c.materials.empty() ? panels.front().materials : c.materials);
    const auto measures = [&](const PanelFacts& f, const std::string& whose) {
        add(whose + (whose.empty() ? "Size" : "size") + ", H × W × D",
            size_text({f.size_mm.x, f.size_mm.y, f.size_mm.z}, f.units));
        add(whose + (whose.empty() ? "Weight" : "weight"),
            fmt::format("about {}, {}", weight_text(f.weight.likely_kg, f.units),
                        weight_range_text(f.weight, f.units)));
    };
    for (const PanelFacts& f : panels) {
        measures(f, panels.size() > 1 ? f.name + ": " : "");
        for (const PanelFacts& own : f.each) measures(own, own.name + ": ");
    }
    add("Edition", c.edition);
    add("Inventory", c.inventory);
    add("Price", c.price);
    add("Site", c.site);
    add("Client", c.client);
    add("Credit", c.credit);
    return lines;
}

}  // namespace rakelight
