// What a layout file asks of its portfolio: which pictures of the finished work, how large in print, what
// gives scale, and what the captions say. Plain values, checked. The set of pictures is what a work is
// usually shown by; common practice, no published source.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scene/keys/keys.h"
#include "scene/room/stand_in.h"

namespace rakelight {

struct Layout;

/// Pictures of the set, in the order in which they are shown.
enum class Shot {
    straight,
    sparkle,
    raking,
    three_quarter,
    details,
    edge,
    both,
    in_place,
    day,
    dusk,
    walk_past
};

/// Words for them in layout files, in the order of `Shot`.
inline const std::vector<std::string> kShotWords = words_of(keys::portfolio, "show");

/// The set-up that the picture at dusk is shown in unless the layout names another.
inline constexpr std::string_view kUsualDusk = "dusk";

/// A near view of a part of the panel.
struct CloseUp {
    glm::dvec2 at_mm{};     ///< its middle on the panel
    double width_mm = 150;  ///< of the part, 30 to 400
};

/// A camera with film of 36 x 24 mm.
struct PortfolioLens {
    double focal_mm = 90;
    double f_number = 8;  ///< of the details; everything else is sharp throughout
};

/// Frames seen by somebody who walks past.
struct WalkPast {
    double from_mm = -1100;  ///< to the right of the middle of what hangs there
    double to_mm = 1100;
    int steps = 7;
    double distance_mm = 0;  ///< from the wall; 0 = 1.75 diagonals
    double eye_mm = 1600;    ///< height
};

/// Lines for captions; what is empty is left out. The panel's name, materials, size and weight are known.
struct Caption {
    std::string title, artist, year, materials, edition, inventory, price, site, client, credit, statement;
    std::string date;  ///< of the proposal
};

struct Portfolio {
    std::vector<Shot> show;
    std::map<Shot, std::string>
        light;  ///< names of set-ups of light (with_light.h); others have a light of their own
    std::optional<double> general_lux;  ///< of pictures in place and at dusk, at the wall; none = as usual
    double print_mm = 200;              ///< longer side of a print
    int dpi = 300;
    double grain = 0.04;  ///< relative error of a pixel
    int most_samples = 64;
    std::vector<CloseUp> details;
    PortfolioLens lens;
    std::vector<StandInPlace> scale_figures;
    WalkPast walk;
    Caption caption;
};

/// What the section means where it says nothing; needs a whole layout.
Portfolio usual_portfolio(const Layout& layout);

/// "found ..., expected ...": why a picture cannot be shown: no panel beside, no light of its hour that fits
/// into the room. Empty when it can.
std::string why_no_shot(Shot shot, const Portfolio& portfolio, const Layout& layout);

/// Pixels along `mm` of a print, at least one: mm / 25.4 * dpi to the nearest.
int print_px(double mm, int dpi);

}  // namespace rakelight
