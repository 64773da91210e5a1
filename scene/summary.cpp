#include "scene/summary.h"

#include <fmt/format.h>

#include <array>
#include <iterator>
#include <string_view>

namespace rakelight {
namespace {

constexpr std::array<std::string_view, 5> kOpus{"regulatum", "tessellatum", "musivum", "vermiculatum",
                                                "palladianum"};
constexpr std::array<std::string_view, 3> kForm{"spot", "bulb", "panel"};

using Out = std::back_insert_iterator<std::string>;

void summarise_fields(Out out, const Layout& layout) {
    fmt::format_to(out, "fields, in the order of laying:\n");
    for (const Field& f : layout.fields) {
        fmt::format_to(out, "  {}: {}, pieces {:.6g} x {:.6g} mm, joint {:.6g} mm, {}", f.name,
                       kOpus[static_cast<size_t>(f.opus)], f.piece_length_mm, f.piece_width_mm, f.joint_mm,
                       f.grout.empty() ? "joints open" : "grout " + f.grout);
        fmt::format_to(out, " over {} (zone {})\n    mix:", f.bed, f.zone);
        for (size_t i = 0; i < f.mix.size(); ++i)
            fmt::format_to(out, "{} {} {:.4g} %", i > 0 ? "," : "", f.mix[i].material, 100 * f.mix[i].share);
        fmt::format_to(out, "\n");
    }
}

void summarise_lamps(Out out, const Layout& layout) {
    fmt::format_to(out, "lamps:\n");
    for (const Lamp& lamp : layout.lamps) {
        const std::string light =
            lamp.candela > 0 ? fmt::format("{:.0f} cd", lamp.candela) : fmt::format("{:.0f} lm", lamp.lumen);
        const std::string colour =
            lamp.illuminant.empty() ? fmt::format("{:.0f} K", lamp.temperature_k) : lamp.illuminant;
        fmt::format_to(out, "  {} (group {}): {}, {}, {}, at [{:.0f}, {:.0f}, {:.0f}] mm\n", lamp.name,
                       lamp.group, kForm[static_cast<size_t>(lamp.form)], light, colour, lamp.at_mm.x,
                       lamp.at_mm.y, lamp.at_mm.z);
    }
}

void summarise_pictures(Out out, const Layout& layout) {
    fmt::format_to(out, "viewpoints:\n");
    for (const Viewpoint& view : layout.viewpoints)
        fmt::format_to(out, "  {}: eye [{:.0f}, {:.0f}, {:.0f}] mm, view {:.0f} mm wide\n", view.name,
                       view.eye_mm.x, view.eye_mm.y, view.eye_mm.z, view.view_width_mm);
    fmt::format_to(out, "pictures:\n");
    for (const Picture& p : layout.pictures)
        fmt::format_to(out, "  {}: from {}, {} x {} px, {}, lamps {}, error {:.3g} %\n", p.name, p.viewpoint,
                       p.width_px, p.height_px,
                       p.ev ? fmt::format("EV {}", *p.ev) : "exposure by " + p.exposure,
                       p.lamps.empty() ? "all" : fmt::format("{}", fmt::join(p.lamps, ", ")), 100 * p.error);
}

}  // namespace

std::string summarise(const Layout& layout) {
    std::string text;
    const Out out = std::back_inserter(text);
    fmt::format_to(out, "{}: {:.6g} x {:.6g} mm on {} ({:.6g} mm), bed {:.6g} mm, seed {}\n", layout.name,
                   layout.width_mm, layout.height_mm, layout.substrate.material,
                   layout.substrate.thickness_mm, layout.substrate.bed_mm, layout.seed);
    if (layout.frame)
        fmt::format_to(out, "frame: {}, {:.6g} mm wide, {:.6g} mm proud, gap {:.6g} mm\n",
                       layout.frame->material, layout.frame->width_mm, layout.frame->proud_mm,
                       layout.frame->gap_mm);
    summarise_fields(out, layout);
    if (!layout.stones.empty()) {
        fmt::format_to(out, "stones: {}\n", layout.stones.size());
        for (const PlacedStone& s : layout.stones)
            fmt::format_to(out, "  {} {:.6g} x {:.6g} x {:.6g} mm at [{:.6g}, {:.6g}] mm, {:.6g} mm proud\n",
                           s.material, s.size_mm.x, s.size_mm.y, s.size_mm.z, s.at_mm.x, s.at_mm.y,
                           s.proud_mm);
    }
    const Room& room = layout.room;
    fmt::format_to(
        out, "room: {:.6g} x {:.6g} x {:.6g} mm, panel centre at {:.6g} mm, wall {}, floor {}, ceiling {}\n",
        room.width_mm, room.depth_mm, room.height_mm, room.panel_centre_height_mm, room.wall, room.floor,
        room.ceiling);
    summarise_lamps(out, layout);
    summarise_pictures(out, layout);
    return text;
}

}  // namespace rakelight
