#include "output/in_photograph/make.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "output/in_photograph/photographed_light.h"
#include "output/in_photograph/set_in.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"

namespace rakelight {
namespace {

constexpr double kFilterVariance_px2 = 1.0 / 6;  // of the renderer's tent, one pixel each way

// A world with its tree.
struct Stand {
    World world;
    Bvh bvh;
    explicit Stand(World w) : world(std::move(w)), bvh(world) {}
};

glm::dvec3 rgb_of(const glm::dvec3& xyz) {
    const LinearRgb rgb = xyz_to_linear_rgb({xyz.x, xyz.y, xyz.z});
    return {rgb.r, rgb.g, rgb.b};
}

// Red, green, blue in cd/m2 of the window.
std::vector<glm::vec3> traced(const Stand& stand, const TakenPhotograph& taken, const Layout& lit,
                              const HowToSetIn& how, double from, double to) {
    Picture picture;
    picture.name = taken.said.name;
    picture.width_px = taken.window.width();
    picture.height_px = taken.window.height();
    picture.error = 1e-9;  // as many samples in every pixel of both
    picture.most_samples = taken.said.samples;
    RenderOptions options;
    options.threads = how.threads;
    options.card_cd_per_m2 = 1;
    options.camera = taken.camera(taken.window, stand.world.origin_mm);
    if (how.progress) options.progress = [&](double share) { how.progress(from + (to - from) * share); };
    options.cancelled = how.cancelled;
    const Film film = render(stand.world, stand.bvh, lit, picture, options);
    std::vector<glm::vec3> rgb(film.pixel_count());
    for (std::size_t i = 0; i < rgb.size(); ++i) rgb[i] = glm::vec3(rgb_of(glm::dvec3(total_xyz(film, i))));
    return rgb;
}

// Of each pixel of the window the share where a ray meets another thing with the panel hung than without, by
// 4 x 4 rays a pixel under the renderer's own filter.
class Coverage {
  public:
    Coverage(const TakenPhotograph& taken, const Stand& hung, const Stand& bare)
        : taken_(taken),
          hung_(hung),
          bare_(bare),
          box_{std::max(taken.window.left, taken.panel.left), std::max(taken.window.top, taken.panel.top),
               std::min(taken.window.right, taken.panel.right),
               std::min(taken.window.bottom, taken.panel.bottom)},
          width_((box_.width() + 2) * kSide),
          hit_(static_cast<std::size_t>(width_) * static_cast<std::size_t>((box_.height() + 2) * kSide)) {
        tbb::parallel_for(0, (box_.height() + 2) * kSide, [&](int y) { trace_row(y); });
    }

    std::vector<float> shares() const {
        std::vector<float> shares(static_cast<std::size_t>(taken_.window.width()) *
                                      static_cast<std::size_t>(taken_.window.height()),
                                  0);
        for (int y = box_.top; y < box_.bottom; ++y)
            for (int x = box_.left; x < box_.right; ++x)
                shares[static_cast<std::size_t>(y - taken_.window.top) * taken_.window.width() + x -
                       taken_.window.left] = filtered(x - box_.left, y - box_.top);
        return shares;
    }

  private:
    static constexpr int kSide = 4;

    void trace_row(int row) {
        const PicturePart grown{box_.left - 1, box_.top - 1, box_.right + 1, box_.bottom + 1};
        const Camera camera = taken_.camera(grown, hung_.world.origin_mm);
        const float y = (static_cast<float>(row) + 0.5f) / static_cast<float>(grown.height() * kSide);
        for (int i = 0; i < width_; ++i) {
            const float x = (static_cast<float>(i) + 0.5f) / static_cast<float>(width_);
            const Ray ray{camera.eye_mm, kFar_mm, camera.toward(x, y)};
            const Hit with = hung_.bvh.intersect(ray), without = bare_.bvh.intersect(ray);
            const bool met = with.triangle != kNone && without.triangle != kNone;
            const bool other = met ? std::abs(with.distance_mm - without.distance_mm) > 0.01f
                                   : with.triangle != without.triangle;
            hit_[static_cast<std::size_t>(row) * width_ + i] = other;
        }
    }

    float filtered(int x, int y) const {
        float sum = 0, all = 0;
        for (int j = 0; j < 3 * kSide; ++j)
            for (int i = 0; i < 3 * kSide; ++i) {
                const auto tent = [](int k) {
                    return std::max(0.f, 1 - std::abs((static_cast<float>(k) + 0.5f) / kSide - 1.5f));
                };
                const float w = tent(i) * tent(j);
                all += w;
                sum += w * hit_[static_cast<std::size_t>(y * kSide + j) * width_ + x * kSide + i];
            }
        return sum / all;
    }

    const TakenPhotograph& taken_;
    const Stand &hung_, &bare_;
    PicturePart box_;
    int width_;
    std::vector<std::uint8_t> hit_;
};

// 1 about the panel, falling to 0 at the borders of the window that are not the photograph's.
std::vector<float> reach_of(const TakenPhotograph& t) {
    const PicturePart &w = t.window, &p = t.panel;
    const auto side = [](double beyond, double gap, bool ends) {
        if (!ends || beyond <= 0 || gap <= 0) return 1.0;
        const double u = std::clamp((beyond / gap - 0.5) / 0.5, 0.0, 1.0);
        return 1 - u * u * (3 - 2 * u);
    };
    std::vector<float> reach;
    for (int y = w.top; y < w.bottom; ++y)
        for (int x = w.left; x < w.right; ++x)
            reach.push_back(
                static_cast<float>(side(p.left - x - 0.5, p.left - w.left, w.left > 0) *
                                   side(x + 0.5 - p.right, w.right - p.right, w.right < t.size_px.x) *
                                   side(p.top - y - 0.5, p.top - w.top, w.top > 0) *
                                   side(y + 0.5 - p.bottom, w.bottom - p.bottom, w.bottom < t.size_px.y)));
    return reach;
}

template <class Value>
std::vector<Value> cut_out(const std::vector<Value>& whole, const TakenPhotograph& t) {
    std::vector<Value> part;
    if (whole.empty()) return part;
    for (int y = t.window.top; y < t.window.bottom; ++y) {
        const auto row = whole.begin() + static_cast<std::ptrdiff_t>(y) * t.size_px.x;
        part.insert(part.end(), row + t.window.left, row + t.window.right);
    }
    return part;
}

// What the sheet would send to the camera in the rendered room, over what it does in the photograph.
glm::dvec3 white_by_sheet(const TakenPhotograph& t, const Stand& bare, const Layout& lit) {
    constexpr int kPaths = 65'536;
    constexpr double kOffWall_mm = 1;
    const glm::dvec3 at = t.sheet_in_room_mm + glm::dvec3(0, 0, kOffWall_mm) - bare.world.origin_mm;
    glm::dvec3 xyz(0);
    const std::vector<Emitter> lamps = lamps_of_picture(bare.world, lit, {});
    for (const glm::dvec3& group :
         illuminance_xyz(bare.world, bare.bvh, lamps, glm::vec3(at), {0, 0, 1}, kPaths))
        xyz += group;
    return rgb_of(xyz) * (t.said.white / std::numbers::pi) / glm::max(t.sheet_rgb(), glm::dvec3(1e-6));
}

glm::dvec3 white_by_wall(const TakenPhotograph& t, const SetIn& parts) {
    const std::vector<std::uint8_t> spoilt = cut_out(t.spoilt, t);
    glm::dvec3 rendered(0), photographed(0);
    for (std::size_t i = 0; i < parts.without.size(); ++i) {
        const bool in_front = !parts.in_front.empty() && parts.in_front[i] > 0.01f;
        if (parts.covered[i] > 0 || spoilt[i] || in_front) continue;
        rendered += glm::dvec3(parts.without[i]);
        photographed += glm::dvec3(parts.photograph[i]);
    }
    return rendered / glm::max(photographed, glm::dvec3(1e-9));
}

void put_in(Print& print, const TakenPhotograph& t, const Composed& made, const GrainOfCamera& grain) {
    for (int y = t.window.top; y < t.window.bottom; ++y)
        for (int x = t.window.left; x < t.window.right; ++x) {
            const std::size_t i =
                static_cast<std::size_t>(y - t.window.top) * t.window.width() + x - t.window.left;
            const glm::vec3& rgb = made.rgb[i];
            const EncodedSrgb e = encode({rgb.x, rgb.y, rgb.z});
            glm::dvec3 out(e.r, e.g, e.b);
            if (made.panel[i] > 0) out += double(made.panel[i]) * grain.at(x, y);
            float* to = &print.rgb[3 * (static_cast<std::size_t>(y) * t.size_px.x + x)];
            for (int c = 0; c < 3; ++c) to[c] = static_cast<float>(std::clamp(out[c], 0.0, 1.0));
        }
}

Print print_of(const TakenPhotograph& t) {
    Print print{t.size_px.x, t.size_px.y, {}};
    for (const glm::vec3& rgb : t.rgb) {
        const EncodedSrgb e = encode({rgb.x, rgb.y, rgb.z});
        for (const double v : {e.r, e.g, e.b})
            print.rgb.push_back(static_cast<float>(std::clamp(v, 0.0, 1.0)));
    }
    return print;
}

glm::dvec3 mean_rgb(const TakenPhotograph& t) {
    glm::dvec3 sum(0);
    for (const glm::vec3& rgb : t.rgb) sum += glm::dvec3(rgb);
    return sum / static_cast<double>(t.rgb.size());
}

}  // namespace

Layout lit_as_photographed(const TakenPhotograph& t, const Layout& layout) {
    if (!t.said.light.empty()) return with_light(layout, t.said.light);
    const glm::dvec3 white =
        t.said.exposure_by == ExposureBy::sheet ? t.sheet_rgb() / t.said.white : glm::dvec3(1);
    Layout lit = layout;
    put_light(lit, photographed_light(mean_rgb(t) / glm::max(white, glm::dvec3(1e-6)), t.said.main_light));
    return lit;
}

PrintInPhotograph panel_in_photograph(const TakenPhotograph& t, const Layout& layout, const Laying& laying,
                                      const Laying* beside, const HowToSetIn& how) {
    const Layout lit = lit_as_photographed(t, layout);
    const Stand bare(build_bare_wall(lit)), hung(build_world(lit, laying, beside));
    PrintInPhotograph made;
    made.light = lit.on.name;
    SetIn parts;
    parts.width = t.window.width();
    parts.height = t.window.height();
    parts.photograph = cut_out(t.rgb, t);
    parts.in_front = cut_out(t.in_front, t);
    parts.reach = reach_of(t);
    parts.covered = Coverage(t, hung, bare).shares();
    parts.without = traced(bare, t, lit, how, 0, 0.3);
    parts.with = traced(hung, t, lit, how, 0.3, 1);
    made.white_cd_per_m2 =
        t.said.exposure_by == ExposureBy::sheet ? white_by_sheet(t, bare, lit) : white_by_wall(t, parts);
    if (!(std::min({made.white_cd_per_m2.x, made.white_cd_per_m2.y, made.white_cd_per_m2.z}) > 0))
        throw PhotographError("light",
                              "found a light that does not fall on the wall where the photograph "
                              "shows it, expected one that does");
    for (auto* layer : {&parts.with, &parts.without})
        for (glm::vec3& rgb : *layer) rgb /= glm::vec3(made.white_cd_per_m2);
    made.look = look_of({t.size_px.x, t.size_px.y, &t.rgb, &t.spoilt}, t.corners_px);
    const double sigma = made.look.blur_px.value_or(0);
    made.softened_px = std::sqrt(std::max(0.0, sigma * sigma - kFilterVariance_px2));
    made.print = print_of(t);
    put_in(made.print, t, set_in(parts, made.softened_px),
           GrainOfCamera(made.look, hash_combine(layout.panel.seed, hash_text(t.said.name))));
    return made;
}

}  // namespace rakelight
