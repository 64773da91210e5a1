// What to move so that a panel glares less: lamps along their tracks, their aim, the panel's lean and the
// height it hangs at, within stated bounds and keeping the light on the panel. Every place of every lamp is
// reckoned once for every way of hanging (expected_glare.h); all changes of one, two and three things at once
// are then gone through by adding up.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "output/glare/measures/expected_glare.h"
#include "scene/model/lamp.h"

namespace rakelight {

struct Layout;

/// How the aim of a lamp that moves goes: it stays on its point, goes along with the lamp, or is swept.
enum class AimGoes { kept, along, swept };

/// Where one lamp may go: along a straight line.
struct LampTrack {
    std::string lamp;
    glm::dvec3 from_mm{}, to_mm{};  ///< room coordinates
    AimGoes aim = AimGoes::kept;
    glm::dvec3 aim_from_mm{}, aim_to_mm{};  ///< when swept
};

struct KeptLight {
    glm::dvec2 lux{0, 1e9};  ///< least and most, mean over the panel
    double evenness = 0;     ///< darkest place over brightest, at least
};

struct MoveBounds {
    std::vector<LampTrack> lamps;
    std::optional<glm::dvec2> lean_deg;
    std::optional<glm::dvec2> height_mm;  ///< of the panel's centre
    std::optional<KeptLight> keep;        ///< none: nine tenths of the light and evenness that there are
};

/// Everything that can be moved, in one state.
struct Arrangement {
    double lean_deg = 0;
    double height_mm = 0;
    std::vector<Lamp> lamps;  ///< all of the layout, in its order
};

/// An arrangement and what is expected of it.
struct MoveChoice {
    Arrangement how;
    std::vector<std::size_t> changed;  ///< knobs: 0 lean, 1 height, 2 + i the track i
    std::vector<double> score;         ///< at every eye
    double worst = 0;                  ///< the score where it is greatest: the one criterion of the ranking
    double lux = 0;                    ///< mean over the panel
    double evenness = 0;               ///< darkest over brightest
    double effort = 0;  ///< how much is moved: a metre of a lamp or its aim, 4 degrees, 100 mm are 1 each
};

struct MoveSearch {
    KeptLight keep;  ///< that was asked for, or that the present state implies
    MoveChoice present;
    std::vector<MoveChoice> better;  ///< best of one, two, three changes; each clearly better than the last
    std::uint64_t gone_through = 0;  ///< arrangements compared
    std::uint64_t kept_light = 0;    ///< of them, those that keep the light
};

/// Finalists have to lower the worst score by this share of what is left.
inline constexpr double kWorthMoving = 0.2;

/// `indirect_lux`: light on the panel by way of the room, taken to stay as it is. `terms.lux` is what the
/// pieces' own light is reckoned with throughout. `eyes_mm` in room coordinates, not empty. Lamps that are
/// off and what a window gives count as they stand. Deterministic. `stopped` is asked now and then; true ends
/// the search with what there is.
MoveSearch what_to_move(const Layout& layout, const std::vector<SmallMirror>& mirrors,
                        const std::vector<glm::dvec3>& eyes_mm, const MoveBounds& bounds,
                        const GlareTerms& terms, double indirect_lux,
                        const std::function<bool()>& stopped = {});

/// The layout with things where an arrangement has them.
Layout arranged(Layout layout, const Arrangement& how);

/// Mean of the direct light on the panel as the layout has it, lux.
double direct_lux(const Layout& layout);

}  // namespace rakelight
