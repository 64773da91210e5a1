#include "output/glare/room_sketch.h"

#include <algorithm>
#include <cmath>

#include "output/paper/sheet_parts.h"
#include "scene/light/lamp_forms.h"
#include "scene/model/layout.h"
#include "scene/room/panel_frame.h"
#include "scene/room/room_face.h"

namespace rakelight {

namespace {

const EncodedSrgb kInk{0.1, 0.1, 0.1}, kGrey{0.5, 0.5, 0.5}, kPale{0.86, 0.86, 0.86}, kThen{0.05, 0.4, 0.62},
    kLight{0.95, 0.72, 0.2}, kSky{0.55, 0.75, 0.92};

// From the room to the page.
class Sketch {
  public:
    Sketch(Page& page, SketchView view, const Room& room, const glm::dvec2& at_mm, const glm::dvec2& size_mm)
        : page_(page), view_(view), at_mm_(at_mm) {
        const glm::dvec2 real = view == SketchView::side ? glm::dvec2(room.depth_mm, room.height_mm)
                                                         : glm::dvec2(room.width_mm, room.depth_mm);
        scale_ = std::min(size_mm.x / real.x, size_mm.y / real.y);
        drawn_mm_ = real * scale_;
        shift_ = view == SketchView::side ? glm::dvec2(0, room.height_mm) : glm::dvec2(-room.width_mm / 2, 0);
    }

    glm::dvec2 flat(const glm::dvec3& p) const {
        const glm::dvec2 q =
            view_ == SketchView::side ? glm::dvec2(p.z, shift_.y - p.y) : glm::dvec2(p.x - shift_.x, p.z);
        return at_mm_ + q * scale_;
    }
    void line(const glm::dvec3& a, const glm::dvec3& b, double width, const EncodedSrgb& colour) {
        page_.lines.push_back({{flat(a), flat(b)}, width, colour});
    }
    void frame() {
        const glm::dvec2 a = at_mm_, b = at_mm_ + drawn_mm_;
        page_.lines.push_back({{a, {b.x, a.y}, b, {a.x, b.y}, a}, 0.35, kGrey});
    }
    void dot(const glm::dvec3& at, double radius, const EncodedSrgb& colour) {
        for (double r = radius; r > 0; r -= 0.3) page_.lines.push_back(ring(flat(at), r, 0.35, colour));
    }
    void arrow(const glm::dvec3& from, const glm::dvec3& to) {
        const glm::dvec2 a = flat(from), b = flat(to);
        if (glm::distance(a, b) < 1.5) return;
        const glm::dvec2 d = glm::normalize(b - a), n(-d.y, d.x), tip = b - 1.6 * d;
        page_.lines.push_back({{a + 1.6 * d, tip}, 0.4, kThen});
        page_.lines.push_back({{tip - 1.8 * d + 0.9 * n, tip, tip - 1.8 * d - 0.9 * n}, 0.4, kThen});
    }
    // A name beside a thing, where it falls on no other: right of it or left of it in the room, else right.
    // One that has to stand further off is joined to its thing by a line.
    void name(const std::string& text, const glm::dvec3& at, const EncodedSrgb& colour = kInk) {
        constexpr double kNear_mm = 7, kLine_mm = 2.6, kFirst_mm = 0.8;
        const double mm = width_mm({text, {}, 2.2}) + 1, right = 1.9, left = -0.9 - mm;
        const int lines = static_cast<int>(drawn_mm_.y / kLine_mm) + 8;
        for (const auto& [along, within] :
             {std::pair(right, true), std::pair(left, true), std::pair(right, false)})
            for (int i = 0; i < 2 * lines; ++i) {
                // One below, level, two below, one above, three below ..
                const double down = kFirst_mm + kLine_mm * (i % 2 == 0 ? i / 2 + 1 : (1 - i) / 2);
                const glm::dvec2 here = flat(at) + glm::dvec2(along, down);
                const bool out = here.x < at_mm_.x || here.x + mm > at_mm_.x + drawn_mm_.x ||
                                 here.y - kHigh_mm < at_mm_.y || here.y > at_mm_.y + drawn_mm_.y;
                const bool taken = std::any_of(taken_.begin(), taken_.end(), [&](const Taken& t) {
                    return std::abs(t.at.y - here.y) < 2.5 && here.x < t.at.x + t.mm && t.at.x < here.x + mm;
                });
                if ((out && within) || taken) continue;
                taken_.push_back({here, mm});
                page_.texts.push_back({text, here, 2.2, false, Align::left, colour});
                if (std::abs(down) > kNear_mm)
                    page_.lines.push_back(
                        {{flat(at), here + glm::dvec2(along > 0 ? -0.4 : mm - 0.6, -0.8)}, 0.1, kGrey});
                return;
            }
    }
    // Keeps names off a dot.
    void keep_clear(const glm::dvec3& at) { taken_.push_back({flat(at) + glm::dvec2(-1, 0.8), 2}); }

  private:
    Page& page_;
    SketchView view_;
    static constexpr double kHigh_mm = 2;  // of a name
    glm::dvec2 at_mm_, drawn_mm_, shift_;
    double scale_ = 1;
    struct Taken {
        glm::dvec2 at{};  // left end of the baseline
        double mm = 0;
    };
    std::vector<Taken> taken_;
};

void draw_panel(Sketch& sketch, const Panel& panel, const PanelFrame& hang, double width,
                const EncodedSrgb& ink) {
    const auto at = [&](double x, double y) {
        return hang.origin_mm + hang.to_room({x * panel.width_mm, y * panel.height_mm, 0});
    };
    sketch.line(at(0, 0), at(0, 1), width, ink);
    sketch.line(at(0, 0.5), at(1, 0.5), width, ink);
}

// The outlines first: names come when all that they keep clear of is known.
void draw_windows(Sketch& sketch, const Room& room, const std::vector<Window>& windows) {
    for (const Window& window : windows) {
        const FacePlane face = face_plane(room, window.wall);
        const auto [low, high] = window_area(window);
        const glm::dvec3 corners[] = {face.point(low), face.point({high.x, low.y}), face.point(high),
                                      face.point({low.x, high.y})};
        for (int i = 0; i < 4; ++i) sketch.line(corners[i], corners[(i + 1) % 4], 0.9, kSky);
    }
}

void name_windows(Sketch& sketch, const Room& room, const std::vector<Window>& windows) {
    for (const Window& window : windows) {
        const FacePlane face = face_plane(room, window.wall);
        const auto [low, high] = window_area(window);
        sketch.name(window.name, face.point((low + high) / 2.0) + 120.0 * face.inward, kGrey);
    }
}

void draw_lamp(Sketch& sketch, const Lamp& lamp, const EncodedSrgb& ink, bool named) {
    if (rule_of(lamp.form).faces_one_way) {
        const glm::dvec3 way = glm::normalize(lamp.aim_mm - lamp.at_mm);
        sketch.line(lamp.at_mm, lamp.at_mm + 380.0 * way, 0.3, ink);
    }
    sketch.dot(lamp.at_mm, 1.1, ink);
    if (named) sketch.name(lamp.name, lamp.at_mm);
}

}  // namespace

void add_room_sketch(Page& page, SketchView view, const Layout& present, const Arrangement& then,
                     const std::vector<Viewpoint>& eyes, const glm::dvec2& at_mm, const glm::dvec2& size_mm) {
    Sketch sketch(page, view, present.room, at_mm, size_mm);
    sketch.frame();
    draw_windows(sketch, present.room, present.on.windows);
    for (const Viewpoint& eye : eyes) sketch.keep_clear(eye.eye_mm);
    for (std::size_t i = 0; i < present.on.lamps.size(); ++i)
        for (double t = 0; t <= 1; t += 0.05)  // and their arrows
            sketch.keep_clear(glm::mix(present.on.lamps[i].at_mm, then.lamps[i].at_mm, t));
    for (const Viewpoint& eye : eyes) {
        sketch.line(eye.eye_mm, eye.look_at_mm, 0.15, kPale);
        sketch.dot(eye.eye_mm, 0.8, kInk);
        sketch.name(eye.name, eye.eye_mm);
    }
    const bool rehung =
        then.lean_deg != present.panel.lean_deg || then.height_mm != present.panel.centre_height_mm;
    draw_panel(sketch, present.panel, panel_frame(present.panel), 1, rehung ? kGrey : kInk);
    if (rehung)
        draw_panel(sketch, present.panel, panel_frame(present.panel, then.lean_deg, then.height_mm), 1,
                   kThen);
    for (std::size_t i = 0; i < present.on.lamps.size(); ++i) {
        const Lamp &a = present.on.lamps[i], &b = then.lamps[i];
        const bool moved = a.at_mm != b.at_mm || a.aim_mm != b.aim_mm;
        draw_lamp(sketch, a, moved ? kGrey : kLight, true);
        if (!moved) continue;
        draw_lamp(sketch, b, kThen, false);
        sketch.arrow(a.at_mm, b.at_mm);
    }
    name_windows(sketch, present.room, present.on.windows);
}

}  // namespace rakelight
