#include "output/portfolio/shot_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/portfolio/shot_light.h"
#include "scene/light/lamp_forms.h"
#include "scene/model/layout.h"
#include "scene/room/doors.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/hung_panel.h"
#include "scene/room/usual_furnishing.h"

namespace rakelight {

namespace {

constexpr double kFilmWidth_mm = 36;
constexpr double kMargin = 0.07;      // of the work's outer width, left free on each side
constexpr double kOffWalls_mm = 200;  // an eye keeps so far from the walls
constexpr double kThreeQuarter_deg = 35, kEdge_deg = 68;

// What of the wall the works take.
struct Works {
    glm::dvec2 low{1e9}, high{-1e9};
    glm::dvec2 middle() const { return (low + high) / 2.0; }
    glm::dvec2 size() const { return high - low; }
};

Works works_of(const Layout& layout, bool all) {
    Works works;
    for (const HungPanel& panel : hung_panels(layout)) {
        if (!all && panel.layout != &layout) continue;
        const glm::dvec2 half = outer_half_mm(panel.layout->panel, layout.panel.lean_deg);
        works.low = glm::min(works.low, glm::dvec2(panel.centre_mm) - half);
        works.high = glm::max(works.high, glm::dvec2(panel.centre_mm) + half);
    }
    return works;
}

class Planner {
  public:
    Planner(const Layout& layout, const Portfolio& portfolio) : layout_(layout), portfolio_(portfolio) {}

    void add(Shot shot) {
        switch (shot) {
            case Shot::straight:
                return square_on(shot, "straight", "Straight on", false);
            case Shot::sparkle:
                return square_on(shot, "sparkle", "Sparkle", false);
            case Shot::raking:
                return square_on(shot, "raking", "Raking light", false);
            case Shot::both:
                return square_on(shot, "both", "Both panels", true);
            case Shot::three_quarter:
                return three_quarter();
            case Shot::details:
                return details();
            case Shot::edge:
                return edge();
            case Shot::in_place:
                return room("in-place", "In place", shot);
            case Shot::day:
                return room("day", "By day", shot);
            case Shot::dusk:
                return room("dusk", "At dusk", shot);
            case Shot::walk_past:
                return walk_past();
        }
    }

    std::vector<PlannedShot> take() { return std::move(shots_); }

  private:
    // A print of this shape, its longer side as asked.
    PlannedShot& begin(Shot shot, std::string name, std::string title, const glm::dvec2& shape,
                       double share = 1) {
        ShotLight light = light_for(shot, layout_, portfolio_);
        PlannedShot plan;
        plan.shot = shot;
        plan.name = std::move(name);
        plan.title = std::move(title);
        plan.note = plan.light = light.note;
        plan.layout = std::move(light.layout);
        // All light is one group: nothing is dimmed in a print, and no lamp alone has to be free of grain.
        for (Lamp& lamp : plan.layout.on.lamps) lamp.group = "light";
        for (Window& window : plan.layout.on.windows) window.group = "light";
        plan.picture.name = plan.picture.viewpoint = plan.name;
        const glm::dvec2 mm = share * portfolio_.print_mm / std::max(shape.x, shape.y) * shape;
        plan.picture.width_px = std::max(16, print_px(mm.x, portfolio_.dpi));
        plan.picture.height_px = std::max(16, print_px(mm.y, portfolio_.dpi));
        plan.picture.error = portfolio_.grain;
        plan.picture.most_samples = portfolio_.most_samples;
        shots_.push_back(std::move(plan));
        return shots_.back();
    }

    void look(PlannedShot& plan, const glm::dvec3& eye, const glm::dvec3& at, double view_width_mm) const {
        Viewpoint view;
        view.name = plan.name;
        view.eye_mm = eye;
        view.look_at_mm = at;
        view.view_width_mm = view_width_mm;
        plan.layout.views.viewpoints = {view};
    }

    double within_room_mm(double distance) const {
        return std::clamp(distance, 100.0, std::max(100.0, layout_.room.depth_mm - kOffWalls_mm));
    }
    // Free wall on each side of the works; unless `all` are shown, the frame of the one beside stays out.
    double margin_mm(const Works& works, bool all) const {
        const double usual = kMargin * works.size().x;
        return layout_.beside && !all ? std::min(usual, 0.85 * layout_.beside->gap_mm) : usual;
    }
    // -1 or 1: the side on which no other panel hangs.
    double open_side() const { return layout_.beside && !layout_.beside->on_left ? -1 : 1; }
    double within_width_mm(double x) const {
        const double most = layout_.room.width_mm / 2 - kOffWalls_mm;
        return std::clamp(x, -most, most);
    }

    void square_on(Shot shot, const char* name, const char* title, bool all) {
        const Works works = works_of(layout_, all);
        const glm::dvec2 seen = works.size() + 2 * margin_mm(works, all);
        PlannedShot& plan = begin(shot, name, title, seen);
        const glm::dvec3 at(works.middle(), 0);
        look(plan, at + glm::dvec3(0, 0, within_room_mm(distance_for_mm(portfolio_.lens, seen.x))), at,
             seen.x);
    }

    void three_quarter() {
        const Works works = works_of(layout_, false);
        const glm::dvec2 seen = works.size() + 2 * margin_mm(works, true);
        PlannedShot& plan = begin(Shot::three_quarter, "three-quarter", "Three-quarter", seen);
        const double distance = within_room_mm(distance_for_mm(portfolio_.lens, seen.x)),
                     turn = glm::radians(kThreeQuarter_deg) * open_side();
        const glm::dvec3 at(works.middle(), 0);
        look(plan, {within_width_mm(at.x + distance * std::sin(turn)), at.y + 60, distance * std::cos(turn)},
             at, seen.x);
        plan.note = fmt::format("{}, from {:.0f}° to the side", plan.note, kThreeQuarter_deg);
    }

    void details() {
        const HungPanel panel = hung_panels(layout_).front();
        for (std::size_t i = 0; i < portfolio_.details.size(); ++i) {
            const CloseUp& close = portfolio_.details[i];
            PlannedShot& plan = begin(Shot::details, fmt::format("detail-{}", i + 1),
                                      fmt::format("Detail {}", i + 1), {3, 2}, 0.75);
            const glm::dvec3 at =
                panel.centre_mm + glm::dvec3(close.at_mm.x - layout_.panel.width_mm / 2,
                                             close.at_mm.y - layout_.panel.height_mm / 2, 8);
            // A little from the side and above, so that pieces show their height.
            const double distance = distance_for_mm(portfolio_.lens, close.width_mm);
            const glm::dvec3 from = glm::normalize(glm::dvec3(i % 2 ? -0.3 : 0.3, 0.22, 1));
            look(plan, at + distance * from, at, close.width_mm);
            plan.lens = {aperture_mm(portfolio_.lens), distance};
            plan.note = fmt::format("{:.0f} mm wide, {}", close.width_mm, plan.note);
        }
    }

    void edge() {
        const Works works = works_of(layout_, false);
        const double side = open_side();
        const double width = std::clamp(0.55 * layout_.panel.height_mm, 150.0, 400.0);
        PlannedShot& plan = begin(Shot::edge, "edge", "Edge", {4, 3}, 0.75);
        // The lower corner: frame, face, proud stones and the shadow on the wall at once.
        const glm::dvec3 at(side < 0 ? works.low.x + 0.2 * width : works.high.x - 0.2 * width,
                            works.low.y + 0.24 * width, 20);
        const double distance = distance_for_mm(portfolio_.lens, width), turn = glm::radians(kEdge_deg);
        const glm::dvec3 eye = at + distance * glm::dvec3(side * std::sin(turn), 0.12, std::cos(turn));
        look(plan, {within_width_mm(eye.x), eye.y, eye.z}, at, width);
        plan.lens = {aperture_mm(portfolio_.lens), glm::distance(plan.layout.views.viewpoints[0].eye_mm, at)};
        plan.note = fmt::format("depth, frame and shadow at the wall, {}", plan.note);
    }

    // From back in the room and upright: from the feet of what stands there up to the lamps.
    void room(const char* name, const char* title, Shot shot) {
        const Works works = works_of(layout_, true);
        const double eye_z = within_room_mm(std::min(4400.0, layout_.room.depth_mm - kOffWalls_mm));
        constexpr double kEye_mm = 1550, kUnderFeet_mm = 60, kOverWork_mm = 450, kAside_mm = 200,
                         kNearWall_mm = 1500;
        const double eye_x = within_width_mm(works.middle().x);
        // Where a point of the room shows on the wall.
        const auto on_wall = [&](double from, double x, double z) {
            return from + (x - from) * eye_z / (eye_z - z);
        };
        glm::dvec2 low(works.low.x, -kUnderFeet_mm), high(works.high.x, works.high.y + kOverWork_mm);
        for (const StandInPlace& s : portfolio_.scale_figures) {
            if (s.at_mm.y > eye_z - 1500) continue;
            const double tall = s.height_mm > 0 ? s.height_mm : usual_height_mm(s.what);
            const glm::dvec2 half = footprint_mm(s.what, tall) / 2.0;
            low.x = std::min(low.x, on_wall(eye_x, s.at_mm.x - half.x, s.at_mm.y));
            high.x = std::max(high.x, on_wall(eye_x, s.at_mm.x + half.x, s.at_mm.y));
            low.y = std::min(low.y, on_wall(kEye_mm, 0, s.at_mm.y + half.y) - kUnderFeet_mm);
        }
        for (const Lamp& lamp : layout_.on.lamps)
            if (rule_of(lamp.form).in_can && lamp.at_mm.z < eye_z / 3)
                high.y = std::max(high.y, on_wall(kEye_mm, lamp.at_mm.y + 3 * lamp.width_mm, lamp.at_mm.z));
        const Layout furnished = furnished_for(shot);
        for (const Furniture& piece : furnished.room.furniture) {
            const auto [from, to] = corners_of(piece);
            if (to.z > eye_z - 1500 || to.z > kNearWall_mm) continue;
            low.x = std::min(low.x, on_wall(eye_x, from.x, from.z));
            high.x = std::max(high.x, on_wall(eye_x, to.x, from.z));
        }
        for (const Door& door : furnished.room.doors)
            if (door.wall == RoomFace::panel) {
                low = glm::min(low, {door_area(door).low_mm.x, low.y});
                high = glm::max(high, {door_area(door).high_mm.x, door_area(door).high_mm.y});
            }
        glm::dvec2 seen = high - low + glm::dvec2(2 * kAside_mm, 0);
        seen.x = std::max(seen.x, 4.0 / 3 * seen.y);
        PlannedShot& plan = begin(shot, name, title, seen);
        plan.layout.room = furnished.room;
        plan.layout.stock = furnished.stock;
        const double x = within_width_mm((low.x + high.x) / 2);
        look(plan, {x, kEye_mm, eye_z}, {x, (high.y + low.y) / 2, 0}, seen.x);
        plan.layout.views.viewpoints[0].perspective = Perspective::upright;
        plan.in_room = true;
        plan.picture.most_samples = 3 * portfolio_.most_samples;  // light comes round corners here
    }

    // The room as a picture of the place shows it.
    Layout furnished_for(Shot shot) const {
        Layout layout = light_for(shot, layout_, portfolio_).layout;
        furnish(layout, portfolio_.scale_figures);
        return layout;
    }

    void walk_past() {
        const Works works = works_of(layout_, false);
        const glm::dvec2 seen = works.size() + 2 * margin_mm(works, true);
        const WalkPast& walk = portfolio_.walk;
        const double distance =
            within_room_mm(walk.distance_mm > 0 ? walk.distance_mm : 1.75 * glm::length(works.size()));
        for (int i = 0; i < walk.steps; ++i) {
            const double aside = walk.from_mm + (walk.to_mm - walk.from_mm) * i / (walk.steps - 1);
            const std::string place =
                std::abs(aside) < 1
                    ? "In the middle"
                    : fmt::format("{:.2f} m to the {}", std::abs(aside) / 1000, aside < 0 ? "left" : "right");
            PlannedShot& plan = begin(Shot::walk_past, fmt::format("walk-past-{}", i + 1), place, seen, 0.4);
            const glm::dvec3 at(works.middle(), 0);
            look(plan, {within_width_mm(at.x + aside), walk.eye_mm, distance}, at, seen.x);
            plan.note.clear();
        }
    }

    const Layout& layout_;
    const Portfolio& portfolio_;
    std::vector<PlannedShot> shots_;
};

}  // namespace

double aperture_mm(const PortfolioLens& lens) {
    return lens.focal_mm / lens.f_number;
}

double distance_for_mm(const PortfolioLens& lens, double view_width_mm) {
    return lens.focal_mm * (1 + view_width_mm / kFilmWidth_mm);
}

std::vector<PlannedShot> plan_portfolio(const Layout& layout, const Portfolio& portfolio) {
    Planner planner(layout, portfolio);
    for (const Shot shot : portfolio.show) planner.add(shot);
    return planner.take();
}

}  // namespace rakelight
