#include "scene/room/stand_in.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "scene/geometry/loft.h"
#include "scene/model/layout.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/furniture_forms.h"
#include "scene/room/hung_panel.h"
#include "scene/room/room_check.h"

namespace rakelight {

namespace {

// Of its usual width and depth.
glm::dvec3 seat_size_mm(FurnitureForm form, double height_mm) {
    const glm::dvec3 size = usual_size_mm(form);
    return {size.x, height_mm, size.z};
}

// One section of a body: height, centre x and z, half width and half depth, in shares of the figure's height.
struct BodyRing {
    double height, x, z, half_x, half_z;
};

Mesh body_part(std::span<const BodyRing> rings, double height_mm, double side) {
    std::vector<LoftSection> sections;
    for (const BodyRing& r : rings)
        sections.push_back({height_mm * r.height, height_mm * glm::dvec2(side * r.x, r.z),
                            height_mm * glm::dvec2(r.half_x, r.half_z), 2.2});
    return loft_mesh(sections);
}

// A long coat from the shoulders to above the knee, 0.285 up.
constexpr std::array<BodyRing, 14> kCoat{{{.300, 0, .004, .096, .070},
                                          {.304, 0, .004, .099, .073},
                                          {.400, 0, .004, .101, .075},
                                          {.490, 0, .004, .099, .073},
                                          {.560, 0, .003, .093, .066},
                                          {.620, 0, .002, .090, .061},
                                          {.690, 0, .001, .098, .064},
                                          {.750, 0, .002, .109, .066},
                                          {.790, 0, .004, .115, .061},
                                          {.815, 0, .006, .104, .051},
                                          {.832, 0, .006, .070, .042},
                                          {.846, 0, .004, .040, .036},
                                          {.862, 0, .000, .031, .033},
                                          {.885, 0, -.003, .028, .032}}};
constexpr std::array<BodyRing, 10> kHead{{{.862, 0, -.022, .012, .018},
                                          {.868, 0, -.018, .024, .032},
                                          {.882, 0, -.011, .034, .044},
                                          {.905, 0, -.006, .041, .052},
                                          {.930, 0, -.004, .0445, .0565},
                                          {.955, 0, -.003, .0445, .0575},
                                          {.975, 0, -.001, .0385, .0505},
                                          {.989, 0, .000, .0285, .0385},
                                          {.997, 0, .001, .0150, .0210},
                                          {1.000, 0, .001, .0020, .0030}}};
// Over the crown and the back of the head, a little outside it.
constexpr std::array<BodyRing, 7> kHair{{{.902, 0, .034, .020, .016},
                                         {.915, 0, .026, .038, .030},
                                         {.935, 0, .014, .0465, .047},
                                         {.955, 0, .005, .0470, .0570},
                                         {.975, 0, .001, .0410, .0540},
                                         {.990, 0, .001, .0300, .0410},
                                         {1.000, 0, .001, .0020, .0030}}};
// A hand below its sleeve.
constexpr std::array<BodyRing, 5> kHand{{{.378, .137, -.026, .006, .010},
                                         {.386, .137, -.026, .011, .019},
                                         {.425, .139, -.022, .015, .026},
                                         {.462, .141, -.014, .017, .025},
                                         {.490, .142, -.010, .016, .020}}};
// A sleeve; its upper end lies within the coat.
constexpr std::array<BodyRing, 8> kSleeve{{{.472, .142, -.012, .020, .026},
                                           {.485, .142, -.010, .022, .027},
                                           {.550, .144, -.002, .025, .029},
                                           {.630, .142, .006, .028, .033},
                                           {.720, .132, .005, .032, .038},
                                           {.790, .114, .004, .033, .041},
                                           {.824, .078, .005, .012, .022},
                                           {.828, .072, .005, .008, .016}}};
constexpr std::array<BodyRing, 6> kLeg{{{.022, .050, .006, .033, .040},
                                        {.039, .050, .006, .036, .043},
                                        {.150, .050, .006, .039, .045},
                                        {.285, .049, .002, .044, .050},
                                        {.320, .048, .002, .047, .053},
                                        {.340, .048, .002, .047, .053}}};
// A shoe, 0.152 long.
constexpr std::array<BodyRing, 5> kFoot{{{.000, .053, -.030, .027, .073},
                                         {.006, .053, -.030, .030, .076},
                                         {.016, .053, -.029, .029, .074},
                                         {.030, .052, -.014, .027, .054},
                                         {.042, .051, .004, .026, .036}}};

std::vector<StandInSolid> figure_solids(double height_mm) {
    constexpr double kStep = 0.022;  // half a small step, in shares of the height: the left foot is ahead
    const auto stepped = [](auto rings, double side, double full_below) {
        for (BodyRing& r : rings) r.z += side * kStep * std::clamp((0.34 - r.height) / full_below, 0.0, 1.0);
        return rings;
    };
    std::vector<StandInSolid> solids;
    const auto add = [&](StandInStuff stuff, std::span<const BodyRing> rings, double side) {
        solids.push_back({stuff, body_part(rings, height_mm, side)});
    };
    add(StandInStuff::coat, kCoat, 1);
    add(StandInStuff::skin, kHead, 1);
    add(StandInStuff::hair, kHair, 1);
    for (const double side : {-1.0, 1.0}) {
        add(StandInStuff::skin, kHand, side);
        add(StandInStuff::coat, kSleeve, side);
        add(StandInStuff::trousers, stepped(kLeg, side, 0.30), side);
        add(StandInStuff::shoes, stepped(kFoot, side, 0.30), side);
    }
    return solids;
}

}  // namespace

double usual_height_mm(StandIn what) {
    return what == StandIn::figure ? 1700 : what == StandIn::bench ? 450 : 820;
}

glm::dvec2 footprint_mm(StandIn what, double height_mm) {
    switch (what) {
        case StandIn::figure:
            return height_mm * glm::dvec2(0.342, 0.230);
        case StandIn::bench:
            return {seat_size_mm(FurnitureForm::bench, 0).x, seat_size_mm(FurnitureForm::bench, 0).z};
        case StandIn::chair:
            break;
    }
    return {seat_size_mm(FurnitureForm::chair, 0).x, seat_size_mm(FurnitureForm::chair, 0).z};
}

std::vector<StandInSolid> stand_in_solids(StandIn what, double height_mm) {
    switch (what) {
        case StandIn::figure:
            return figure_solids(height_mm);
        case StandIn::bench:
            return {{StandInStuff::wood,
                     furniture_mesh(FurnitureForm::bench, seat_size_mm(FurnitureForm::bench, height_mm))}};
        case StandIn::chair:
            break;
    }
    return {{StandInStuff::wood,
             furniture_mesh(FurnitureForm::chair, seat_size_mm(FurnitureForm::chair, height_mm))}};
}

Furniture box_round(const StandInPlace& place) {
    const double height = place.height_mm > 0 ? place.height_mm : usual_height_mm(place.what);
    const glm::dvec2 size = footprint_mm(place.what, height);
    const double c = std::abs(std::cos(glm::radians(place.turn_deg))),
                 s = std::abs(std::sin(glm::radians(place.turn_deg)));
    Furniture box;
    box.name = kStandInWords[static_cast<std::size_t>(place.what)];
    box.at_mm = {place.at_mm.x, 0, place.at_mm.y};
    box.size_mm = {c * size.x + s * size.y, height, s * size.x + c * size.y};
    return box;
}

std::string why_no_stand_in(const StandInPlace& place, const Layout& layout) {
    const Furniture box = box_round(place);
    if (std::string text = why_no_furniture(box, layout); !text.empty()) return text;
    const auto [low, high] = corners_of(box);
    for (const Furniture& other : layout.room.furniture) {
        const auto [other_low, other_high] = corners_of(other);
        if (glm::all(glm::lessThan(low, other_high)) && glm::all(glm::lessThan(other_low, high)))
            return fmt::format("found a {} in {}, expected a free place", box.name, other.name);
    }
    return "";
}

}  // namespace rakelight
