#include "output/glare/move.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/glare/moving/move_words.h"
#include "output/system/interrupt.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

// What the eye takes for the surroundings of a piece: half a degree each way from where it is nearest.
double neighbourhood_mm(const std::vector<Viewpoint>& views) {
    constexpr double kLocal_deg = 0.5;
    double nearest = 1e300;
    for (const Viewpoint& v : views) nearest = std::min(nearest, glm::distance(v.eye_mm, v.look_at_mm));
    return nearest * std::tan(glm::radians(kLocal_deg));
}

// Lamps that were not asked for are off.
Layout lit_by(Layout layout, const std::vector<std::string>& lamps) {
    if (lamps.empty()) return layout;
    const auto off = [&](const std::string& name) {
        return std::find(lamps.begin(), lamps.end(), name) == lamps.end();
    };
    for (Lamp& lamp : layout.on.lamps)
        if (off(lamp.name)) lamp.dimming = 0;
    std::erase_if(layout.on.windows, [&](const Window& w) { return off(w.name); });
    if (layout.on.all_round && off(layout.on.all_round->name)) layout.on.all_round->dimming = 0;
    return layout;
}

// Lamps that this light has.
MoveBounds in_this_light(MoveBounds bounds, const Lighting& light) {
    std::erase_if(bounds.lamps, [&](const LampTrack& track) {
        return std::none_of(light.lamps.begin(), light.lamps.end(),
                            [&](const Lamp& lamp) { return lamp.name == track.lamp; });
    });
    return bounds;
}

TracedMove described(const Layout& present, const MoveChoice& choice, const MoveBounds& bounds) {
    TracedMove move;
    move.choice = choice;
    move.advice = advice_for(present, choice, bounds);
    move.in_short = changes_in_short(present, choice, bounds);
    move.keys = keys_for(present.on, choice, bounds);
    return move;
}

// An eye looks at the panel's middle wherever that goes.
Viewpoint following(Viewpoint view, const Layout& from, const Layout& to) {
    const glm::dvec3 by(0, to.panel.centre_height_mm - from.panel.centre_height_mm, 0);
    view.look_at_mm += by;
    return view;
}

// What is known when the work is stopped: reckoned, not traced.
std::vector<std::string> found_so_far(const Layout& present, const MoveReport& report,
                                      const MoveBounds& bounds) {
    std::vector<std::string> said;
    if (!report.search.better.empty()) {
        const MoveChoice& best = report.search.better.back();
        said.push_back(
            fmt::format("Stopped. Best of {} arrangements, reckoned and not traced: worst glare score {:.2f} "
                        "in place of {:.2f}.",
                        report.search.gone_through, best.worst, report.search.present.worst));
        for (std::string& sentence : advice_for(present, best, bounds)) said.push_back("  " + sentence);
        for (std::string& key : keys_for(present.on, best, bounds)) said.push_back("    " + key);
    }
    for (const TriedAlone& t : report.tried)
        said.push_back(
            fmt::format("Alone, {}: worst glare score {:.2f}, {:.0f} lx.", t.what, t.worst, t.lux));
    return said;
}

double total_lux(std::span<const glm::dvec3> illuminance) {
    double lux = 0;
    for (const glm::dvec3& xyz : illuminance) lux += xyz.y;
    return lux;
}

}  // namespace

MoveAnswer find_moves(const GlareRoom& room, std::span<const glm::dvec3> illuminance,
                      const std::vector<Viewpoint>& views, const std::vector<GlareLook>& looks,
                      const MoveBounds& wanted, const GlareAsk& ask) {
    const MoveBounds bounds = in_this_light(wanted, room.layout.on);
    MoveAnswer answer;
    MoveReport& report = answer.report;
    report.panel = room.layout.panel.name;
    const Layout present = lit_by(room.layout, ask.lamps);
    std::vector<glm::dvec3> eyes;
    for (const Viewpoint& view : views) {
        eyes.push_back(view.eye_mm);
        report.viewpoints.push_back(view.name);
    }
    const double lux = total_lux(illuminance);
    report.indirect_lux = std::max(0.0, lux - direct_lux(present));
    report.terms.veil = ask.limits.veil_ratio;
    report.terms.lux = lux;
    if (bounds.keep) report.terms.lux = std::clamp(lux, bounds.keep->lux.x, bounds.keep->lux.y);
    const std::vector<SmallMirror> mirrors = small_mirrors(present, room.laying, neighbourhood_mm(views));
    report.tried = also_tried(present, mirrors, eyes, report.terms, report.indirect_lux);
    report.search =
        what_to_move(present, mirrors, eyes, bounds, report.terms, report.indirect_lux, interrupted);
    if (interrupted()) {
        answer.found = found_so_far(present, report, bounds);
        return answer;
    }

    TracedMove now = described(present, report.search.present, bounds);
    now.lux = lux;
    for (const GlareLook& look : looks) now.reports.push_back(look.report);
    report.traced.push_back(std::move(now));
    GlareAsk small = ask;
    small.width_px = ask.width_px / 2;
    for (const MoveChoice& choice : report.search.better) {
        if (interrupted()) {
            answer.found = found_so_far(present, report, bounds);
            return answer;
        }
        TracedMove move = described(present, choice, bounds);
        const GlareRoom moved(arranged(room.layout, choice.how), room.laying);
        small.what = ", " + move.in_short;
        const std::vector<glm::dvec3> light = metered_light(moved, small);
        move.lux = total_lux(light);
        for (std::size_t i = 0; i < views.size(); ++i)
            move.reports.push_back(
                look_for_glare(moved, light, following(views[i], room.layout, moved.layout), small).report);
        report.traced.push_back(std::move(move));
    }
    advise(report);
    if (report.advised == 0) return answer;

    TracedMove& advised = report.traced[report.advised];
    const GlareRoom moved(arranged(room.layout, advised.choice.how), room.laying);
    const std::vector<glm::dvec3> light = metered_light(moved, ask);
    GlareAsk large = ask;
    large.what = ", as advised";
    for (std::size_t i = 0; i < views.size(); ++i) {
        GlareLook look = look_for_glare(moved, light, following(views[i], room.layout, moved.layout), large,
                                        looks[i].ev100);
        advised.reports[i] = look.report;
        answer.pairs.push_back({looks[i].pictures.picture, std::move(look.pictures.picture)});
    }
    advise(report);
    return answer;
}

}  // namespace rakelight
