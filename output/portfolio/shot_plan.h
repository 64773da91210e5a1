// The pictures of a portfolio before they are rendered: from where, under which light, how large, how sharp.
#pragma once

#include <string>
#include <vector>

#include "output/portfolio/portfolio.h"
#include "renderer/lens.h"
#include "scene/model/layout.h"
#include "scene/model/views.h"

namespace rakelight {

struct PlannedShot {
    Shot shot = Shot::straight;
    std::string name;   ///< of the file
    std::string title;  ///< for people
    std::string note;   ///< light and place, in words
    std::string light;  ///< shots of one light share a world
    Layout layout;      ///< under this light, with this viewpoint alone
    Picture picture;    ///< its size on paper
    Lens lens;
    bool in_room = false;  ///< shows the place: with stand-ins and lamp bodies
};

/// In the order of the set; details and frames of the walk one by one. Views are square on where they say so,
/// and stand as far off as the lens wants, or as the room allows.
std::vector<PlannedShot> plan_portfolio(const Layout& layout, const Portfolio& portfolio);

/// Diameter of the lens's opening.
double aperture_mm(const PortfolioLens& lens);

/// Distance to what fills the width of the film with `view_width_mm`: f (1 + w / 36), a thin lens.
double distance_for_mm(const PortfolioLens& lens, double view_width_mm);

}  // namespace rakelight
