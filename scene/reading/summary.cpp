#include "scene/reading/summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>

#include "scene/light/daylight_level.h"
#include "scene/light/lamp_forms.h"
#include "scene/light/photometric_file.h"
#include "scene/light/surround_emitters.h"
#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/opera.h"

namespace rakelight {
namespace {

using Out = std::back_insert_iterator<std::string>;

// Of the room: to a millimetre.
std::string point(const glm::dvec3& mm, Units units) {
    const auto number = [&](double each) {
        return units == Units::metric ? fmt::format("{:.0f}", each) : shown_number(each, units);
    };
    return fmt::format("[{}, {}, {}] {}", number(mm.x), number(mm.y), number(mm.z), length_unit(units));
}

std::string size_of(const Panel& panel, Units units) {
    return shown_size({panel.width_mm, panel.height_mm}, units);
}

void summarise_fields(Out out, const Layout& layout) {
    const std::vector<Field>& fields = layout.fields;
    const Units units = layout.units;
    const auto stock = [&](std::uint32_t material) { return layout.stock[material].name; };
    fmt::format_to(out, "fields, in the order of laying:\n");
    for (const Field& f : fields) {
        fmt::format_to(out, "  {}: {}, pieces {}, joint {}, {}", f.name, rule_of(f.opus).word,
                       f.sizes_mm.y > 0 ? fmt::format("{} to {}", shown_number(f.sizes_mm.x, units),
                                                      shown_length(f.sizes_mm.y, units))
                                        : shown_size({f.piece_length_mm, f.piece_width_mm}, units),
                       shown_length(f.joint_mm, units),
                       f.grout ? "grout " + layout.tints[*f.grout].name : "joints open");
        fmt::format_to(out, " over {} (zone {})\n    {}", layout.tints[f.bed].name, f.zone,
                       f.picture ? "mix after " + f.picture->file + " from:"
                       : f.shift ? "changing mix:"
                                 : "mix:");
        const char* comma = "";
        for (const MixPart& part : f.mix) {
            if (!(part.share > 0)) continue;
            fmt::format_to(out, "{} {}", comma, stock(part.material));
            if (!f.picture) fmt::format_to(out, " {:.4g} %", 100 * part.share);
            comma = ",";
        }
        fmt::format_to(out, "\n");
        for (const Accent& accent : f.accents)
            fmt::format_to(out, "    accents: {} of {}\n", accent.count, stock(accent.material));
        if (!f.shapes.empty()) fmt::format_to(out, "    {} drawn shapes\n", f.shapes.size());
        if (f.boulders.count > 0)
            fmt::format_to(out, "    {} boulders of {}, {} to {}\n", f.boulders.count,
                           stock(f.boulders.material), shown_number(f.boulders.size_mm.x, units),
                           shown_length(f.boulders.size_mm.y, units));
    }
    fmt::format_to(out, "names of an opus differ between books; here they mean:\n");
    for (const OpusRule& rule : opera())
        if (std::any_of(fields.begin(), fields.end(), [&](const Field& f) { return f.opus == rule.opus; }))
            fmt::format_to(out, "  {}: {}\n", rule.word, rule.definition);
}

void summarise_lamps(Out out, const Layout& layout) {
    if (layout.on.lamps.empty()) return;
    fmt::format_to(out, "lamps:\n");
    for (const Lamp& lamp : layout.on.lamps) {
        const std::string light = lamp.candela > 0 ? fmt::format("{:.0f} cd", lamp.candela)
                                  : lamp.lumen > 0 ? fmt::format("{:.0f} lm", lamp.lumen)
                                                   : fmt::format("{:.0f} lm by its file",
                                                                 lamp.measured ? lamp.measured->lumens : 0);
        const std::string colour = lamp.spectrum             ? "its own spectrum"
                                   : lamp.illuminant.empty() ? fmt::format("{:.0f} K", lamp.temperature_k)
                                                             : lamp.illuminant;
        fmt::format_to(out, "  {} (group {}): {}, {}, {}, at {}\n", lamp.name, lamp.group,
                       rule_of(lamp.form).word, light, colour, point(lamp.at_mm, layout.units));
    }
}

void summarise_furnishing(Out out, const Layout& layout) {
    const Room& room = layout.room;
    for (const Furniture& box : room.furniture)
        fmt::format_to(out, "  {}: {}, {}, at {}\n", box.name,
                       shown_size({box.size_mm.x, box.size_mm.y, box.size_mm.z}, layout.units),
                       layout.stock[box.material].name, point(box.at_mm, layout.units));
    if (layout.beside)
        fmt::format_to(out, "beside, on the {}: {}, {}, {} apart\n",
                       layout.beside->on_left ? "left" : "right", layout.beside->layout->panel.name,
                       size_of(layout.beside->layout->panel, layout.units),
                       shown_length(layout.beside->gap_mm, layout.units));
}

void summarise_all_round(Out out, const Layout& layout) {
    if (!layout.on.all_round) return;
    const AllRoundLight& light = *layout.on.all_round;
    const SurroundPicture& picture = light.picture->picture();
    std::vector<std::string> spots;
    for (const WindowLight& part : surround_lights(layout))
        if (std::get<SurroundPart>(part.emitter.shape).of_picture().spot)
            spots.push_back(direction_in_words(-glm::dvec3(part.emitter.axis)));
    fmt::format_to(out, "light all round: {} (group {}): {} x {} pixels{}, {:.3g} lx on the panel\n",
                   light.name, light.group, picture.width_px, picture.height_px,
                   picture.cut_off ? ", colour and direction only" : "", surround_lux(layout));
    if (!spots.empty())
        fmt::format_to(out, "  bright spots, as somebody faces the panel: {}\n", fmt::join(spots, "; "));
}

void summarise_daylight(Out out, const Layout& layout) {
    if (layout.on.windows.empty()) return;
    const LightOutside outside = look_outside(layout.on.daylight);
    fmt::format_to(out, "daylight: {} sky, {:.0f} lx on level ground",
                   layout.on.daylight.sky == SkyKind::clear ? "clear" : "overcast",
                   plane_lux(outside.sky, {0, 1, 0}));
    if (const auto sun = sun_of(layout.on.daylight))
        fmt::format_to(out, "; sun {:.1f} deg high, bearing {:.0f} deg, {:.0f} lx across its beam",
                       sun->altitude_deg, sun->azimuth_deg, outside.sun_lux);
    fmt::format_to(out, "\nwindows:\n");
    const std::vector<WindowLight> lights = window_lights(layout, {});
    for (const Window& window : layout.on.windows) {
        double mean_cd_per_m2 = 0;  // sky and ground may be two lights
        for (const WindowLight& light : lights)
            if (light.name == window.name) mean_cd_per_m2 += light.emitter.peak_cd_per_m2;
        fmt::format_to(out, "  {} (group {}): {}, {:.0f} cd/m2 in the mean\n", window.name, window.group,
                       shown_size({window.size_mm.x, window.size_mm.y}, layout.units), mean_cd_per_m2);
    }
    if (sun_shines_in(layout)) fmt::format_to(out, "  the sun shines in\n");
}

void summarise_pictures(Out out, const Views& views, Units units) {
    fmt::format_to(out, "viewpoints:\n");
    for (const Viewpoint& view : views.viewpoints)
        fmt::format_to(out, "  {}: eye {}, view {} wide\n", view.name, point(view.eye_mm, units),
                       shown_rounded(view.view_width_mm, units));
    fmt::format_to(out, "pictures:\n");
    for (const Picture& p : views.pictures)
        fmt::format_to(out, "  {}: from {}{}, {} x {} px, {}, lamps {}, error {:.3g} %\n", p.name,
                       p.viewpoint, p.light.empty() ? "" : " in the light " + p.light, p.width_px,
                       p.height_px, p.ev ? fmt::format("EV {}", *p.ev) : "exposure by " + p.exposure,
                       p.lamps.empty() ? "all" : fmt::format("{}", fmt::join(p.lamps, ", ")), 100 * p.error);
}

}  // namespace

std::string summarise(const Layout& layout) {
    std::string text;
    const Out out = std::back_inserter(text);
    const Units units = layout.units;
    fmt::format_to(out, "{}: {} on {} ({}), bed {}, seed {}\n", layout.panel.name,
                   size_of(layout.panel, units), layout.stock[layout.panel.substrate.material].name,
                   shown_length(layout.panel.substrate.thickness_mm, units),
                   shown_length(layout.panel.substrate.bed_mm, units), layout.panel.seed);
    if (layout.panel.divided)
        for (const PanelSpan& span : panel_spans(layout.panel))
            fmt::format_to(out, "  {}: {}, x from {} to {} {}\n", span.name,
                           shown_size({span.width_mm(), layout.panel.height_mm}, units),
                           shown_number(span.left_mm, units), shown_number(span.right_mm, units),
                           length_unit(units));
    if (layout.panel.frame)
        fmt::format_to(out, "frame: {}, {} wide, {} proud, gap {}\n",
                       layout.stock[layout.panel.frame->material].name,
                       shown_length(layout.panel.frame->width_mm, units),
                       shown_length(layout.panel.frame->proud_mm, units),
                       shown_length(layout.panel.frame->gap_mm, units));
    summarise_fields(out, layout);
    if (!layout.stones.empty()) {
        fmt::format_to(out, "stones: {}\n", layout.stones.size());
        for (const PlacedStone& s : layout.stones)
            fmt::format_to(out, "  {} {} at [{}, {}] {}, {} proud\n", layout.stock[s.material].name,
                           shown_size({s.size_mm.x, s.size_mm.y, s.size_mm.z}, units),
                           shown_number(s.at_mm.x, units), shown_number(s.at_mm.y, units), length_unit(units),
                           shown_length(s.proud_mm, units));
    }
    const Room& room = layout.room;
    fmt::format_to(out, "room: {}, panel centre at {}, wall {}, floor {}, ceiling {}\n",
                   shown_size({room.width_mm, room.depth_mm, room.height_mm}, units),
                   shown_length(layout.panel.centre_height_mm, units), layout.stock[room.wall].name,
                   layout.stock[room.floor].name, layout.stock[room.ceiling].name);
    summarise_furnishing(out, layout);
    for (const std::string& light : layout.lights) {
        if (light != kOwnLight || layout.lights.size() > 1) fmt::format_to(out, "in the light {}:\n", light);
        const Layout lit = with_light(layout, light);
        summarise_all_round(out, lit);
        summarise_daylight(out, lit);
        summarise_lamps(out, lit);
    }
    summarise_pictures(out, layout.views, layout.units);
    return text;
}

}  // namespace rakelight
