#include "output/glare/moving/move_section.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/glare/moving/move_stops.h"
#include "scene/light/lamp_forms.h"
#include "scene/model/lamp_called.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"
#include "scene/room/room_check.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

bool shines_all_round(const Lamp& lamp) {
    return !rule_of(lamp.form).faces_one_way;
}

bool is_aimed_at_panel(const Lamp& lamp, const Layout& layout) {
    const HungPanel panel = hung_panels(layout).front();
    const glm::dvec3 off = glm::abs(lamp.aim_mm - panel.centre_mm);
    return off.x <= layout.panel.width_mm && off.y <= layout.panel.height_mm && off.z <= 300;
}

// `aim: kept`, `aim: along`, or a sweep from one point to another.
void read_aim(Section& in, LampTrack& track, const Lamp& lamp, const Layout& layout) {
    track.aim = shines_all_round(lamp) || !is_aimed_at_panel(lamp, layout) ? AimGoes::along : AimGoes::kept;
    const YamlValue* aim = in.find("aim");
    if (!aim) return;
    if (shines_all_round(lamp)) {
        in.problem("aim", "found aim of " + lamp.name + ", which shines all round, expected none");
        return;
    }
    if (aim->shape == YamlValue::Shape::scalar) {
        size_t word = 0;
        if (in.set_word(word, "aim")) track.aim = word == 0 ? AimGoes::kept : AimGoes::along;
        return;
    }
    Section sweep(*aim, in, "aim");
    sweep.require("from", "the first point [x, y, z] it may be aimed at");
    sweep.require("to", "the last point [x, y, z] it may be aimed at");
    if (sweep.set(track.aim_from_mm, "from") && sweep.set(track.aim_to_mm, "to")) track.aim = AimGoes::swept;
    if (lamp.faces_mm)
        in.problem("aim", "found a sweep of " + lamp.name +
                              ", whose face looks another way, expected kept or along");
    sweep.finish();
}

void check_track(Section& in, const LampTrack& track, const Layout& layout) {
    for (const auto& [key, at] : {std::pair("from", track.from_mm), std::pair("to", track.to_mm)})
        if (const std::string text = why_not_free(at, layout); !text.empty()) return in.problem(key, text);
    for (const double along : even_stops(0, 1, 101)) {
        const glm::dvec3 at = glm::mix(track.from_mm, track.to_mm, along);
        if (const std::string text = why_not_free(at, layout); !text.empty())
            return in.problem("to", "on the way " + text);
        const bool swept = track.aim == AimGoes::swept;
        for (const glm::dvec3& aim : {track.aim_from_mm, track.aim_to_mm})
            if (swept && glm::distance(aim, at) < 1)
                return in.problem("aim", "found a place of the lamp itself, expected a point away from it");
    }
}

void read_track(Section& in, MoveBounds& bounds, const Lamp& lamp, const Layout& layout) {
    LampTrack track;
    track.lamp = lamp.name;
    track.from_mm = track.to_mm = lamp.at_mm;
    const bool from = in.find("from") != nullptr, to = in.find("to") != nullptr;
    if (from != to)
        in.problem(from ? "to" : "from", "found nothing, expected where the track " +
                                             std::string(from ? "ends" : "begins") + ", [x, y, z]");
    const bool good = in.set(track.from_mm, "from") == from && in.set(track.to_mm, "to") == to && from == to;
    read_aim(in, track, lamp, layout);
    if (!from && !to && track.aim != AimGoes::swept && !in.has("aim"))
        in.problem("", "found nothing that moves, expected from and to, or an aim");
    if (good && layout.panel.width_mm > 0) check_track(in, track, layout);
    bounds.lamps.push_back(track);
}

void read_lamps_that_move(Section& in, MoveBounds& bounds, const Layout& layout) {
    const YamlValue* lamps = in.find("lamps");
    if (!lamps) return;
    std::vector<std::string> known;
    for (const Lamp& lamp : layout.on.lamps) known.push_back(lamp.name);
    for (const Lighting& set_up : layout.set_ups)
        for (const Lamp& lamp : set_up.lamps) known.push_back(lamp.name);
    Section section(*lamps, in, "lamps");
    if (lamps->shape != YamlValue::Shape::mapping) return;
    for (const YamlMember& member : lamps->members) {
        section.find(member.key.text);
        const Lamp* lamp = lamp_called(layout, member.key.text);
        if (!lamp) {
            in.problems().add(member.key, section.path(member.key.text),
                              "found " + quoted(member.key.text) + ", expected the name of a lamp" +
                                  did_you_mean(member.key.text, known));
            continue;
        }
        Section track(member.value, section, member.key.text);
        if (member.value.shape != YamlValue::Shape::mapping) continue;
        read_track(track, bounds, *lamp, layout);
        track.finish();
    }
    section.finish();
}

std::optional<glm::dvec2> read_span(Section& in, std::string_view key) {
    glm::dvec2 span{};
    if (!in.set(span, key)) return std::nullopt;
    if (span.x <= span.y) return span;
    in.problem(key,
               fmt::format("found from {:g} to {:g}, expected the smaller number first", span.x, span.y));
    return std::nullopt;
}

// A panel hung at its bounds must still fit between floor and ceiling, and leave lamps and eyes free.
void check_hanging(Section& in, const MoveBounds& bounds, Layout layout) {
    const glm::dvec2 now(layout.panel.centre_height_mm);
    const glm::dvec2 heights = bounds.height_mm.value_or(now);
    const double half = outer_half_mm(layout.panel, 0).y;
    if (bounds.height_mm && (heights.x < half || heights.y > layout.room.height_mm - half))
        return in.problem("height",
                          fmt::format("found {:g} to {:g} mm, expected {:.0f} to {:.0f} mm for a panel "
                                      "between floor and ceiling",
                                      heights.x, heights.y, half, layout.room.height_mm - half));
    if (!bounds.lean_deg && !bounds.height_mm) return;
    for (const double lean : {bounds.lean_deg.value_or(glm::dvec2(layout.panel.lean_deg)).x,
                              bounds.lean_deg.value_or(glm::dvec2(layout.panel.lean_deg)).y})
        for (const double height : {heights.x, heights.y}) {
            layout.panel.lean_deg = lean;
            layout.panel.centre_height_mm = height;
            for (const Lamp& lamp : layout.on.lamps)
                if (!why_not_free(lamp.at_mm, layout).empty())
                    return in.problem(bounds.lean_deg ? "lean" : "height",
                                      fmt::format("found a panel that would run into {} at {:g} degrees and "
                                                  "{:g} mm, expected bounds that leave it free",
                                                  lamp.name, lean, height));
        }
}

void read_kept(Section& in, MoveBounds& bounds) {
    const YamlValue* keep = in.find("keep");
    if (!keep) return;
    Section section(*keep, in, "keep");
    KeptLight kept;
    if (const auto lux = read_span(section, "lux")) kept.lux = *lux;
    section.set(kept.evenness, "evenness");
    section.finish();
    bounds.keep = kept;
}

}  // namespace

void read_move(Section& glare, MoveBounds& bounds, const Layout& layout) {
    const YamlValue* move = glare.find("move");
    if (!move) {
        bounds.lean_deg = glm::dvec2(0, kMostLean_deg);
        return;
    }
    Section in(*move, glare, "move");
    if (move->shape != YamlValue::Shape::mapping) return;
    read_lamps_that_move(in, bounds, layout);
    bounds.lean_deg = read_span(in, "lean");
    bounds.height_mm = read_span(in, "height");
    read_kept(in, bounds);
    if (!in.has("lamps") && !in.has("lean") && !in.has("height"))
        glare.problem("move", "found nothing that may move, expected lamps, lean or height");
    if (layout.panel.width_mm > 0) check_hanging(in, bounds, layout);
    in.finish();
}

}  // namespace rakelight
