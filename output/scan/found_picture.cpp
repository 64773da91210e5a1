#include "output/scan/found_picture.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/marks/plane_fit.h"
#include "output/paper/page.h"
#include "output/paper/sheet_parts.h"
#include "output/scan/found_drawing.h"

namespace rakelight {
namespace {

using glm::dvec2;

constexpr double kLong_mm = 260, kPx_per_mm = 6, kFoot_mm = 15;
constexpr EncodedSrgb kInk{0.1, 0.1, 0.1}, kGuide{0.05, 0.3, 0.85}, kGap{0.95, 0.45, 0},
    kNone{0.85, 0.1, 0.1};
constexpr std::array<glm::vec3, 6> kTints{glm::vec3(0.55f, 0.80f, 0.95f), {0.98f, 0.85f, 0.45f},
                                          {0.65f, 0.90f, 0.60f},          {0.85f, 0.70f, 0.95f},
                                          {0.95f, 0.72f, 0.62f},          {0.60f, 0.92f, 0.85f}};

/// A region of the drawing, on the panel.
struct Shown {
    std::vector<Ring> rings_mm;
    std::vector<Ring> guides_mm;
    dvec2 at_mm{};
    std::optional<std::size_t> field;
};

std::vector<Shown> regions_of(const Layout& layout, const Drawing& found) {
    std::vector<Shown> regions(found.groups.size());
    for (const DrawnPath& path : found.paths)
        if (path.group >= 0)
            for (const DrawnLine& line : path.lines) {
                Shown& region = regions[static_cast<std::size_t>(path.group)];
                (line.closed ? region.rings_mm : region.guides_mm).push_back(line.points_mm);
            }
    std::erase_if(regions, [](const Shown& region) { return region.rings_mm.empty(); });
    std::vector<Region> grounds;
    for (const Field& field : layout.fields) {
        std::vector<Ring> rings{flatten(field.outline, 0.1)};
        for (const Stroke& ring : field.more_rings) rings.push_back(flatten(ring, 0.1));
        grounds.push_back(region_of(rings, true));
    }
    for (Shown& region : regions) {
        region.at_mm = well_within(region.rings_mm);
        for (std::size_t f = 0; f < grounds.size() && !region.field; ++f)
            if (contains(grounds[f], region.at_mm)) region.field = f;
    }
    return regions;
}

class PictureOfScan {
  public:
    PictureOfScan(const Drawing& found, const HowFound& how)
        : size_mm_(found.size_mm),
          scale_(kLong_mm / std::max(size_mm_.x, size_mm_.y)),
          paper_scale_(how.place.size_mm.x > 0 ? how.place.size_mm.x / size_mm_.x : 1) {
        page_.size_mm = scale_ * size_mm_ + dvec2(0, kFoot_mm);
        print_.width = static_cast<int>(std::lround(page_.size_mm.x * kPx_per_mm));
        print_.height = static_cast<int>(std::lround(page_.size_mm.y * kPx_per_mm));
        print_.rgb.assign(
            3 * static_cast<std::size_t>(print_.width) * static_cast<std::size_t>(print_.height), 1.f);
    }

    /// The photograph made flat, and pale.
    void add_photograph(const HowFound& how, const BytePicture& scan) {
        if (how.place.size_mm.x <= 0) return;
        const dvec2 size = how.place.size_mm;
        std::vector<SeenPoint> corners;
        const std::array<dvec2, 4> parts{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
        for (std::size_t i = 0; i < 4; ++i) corners.push_back({parts[i] * size, how.place.corners_px[i]});
        const glm::dmat3 to_px = fit_plane(corners).to_px;
        each_pixel([&](const dvec2& panel, std::size_t at) {
            const dvec2 paper = paper_scale_ * dvec2(panel.x, size_mm_.y - panel.y);
            const glm::ivec2 px(glm::floor(through(to_px, paper)));
            if (px.x < 0 || px.y < 0 || px.x >= scan.size_px.x || px.y >= scan.size_px.y) return;
            const auto from = 3 * (static_cast<std::size_t>(px.y) * static_cast<std::size_t>(scan.size_px.x) +
                                   static_cast<std::size_t>(px.x));
            for (std::size_t c = 0; c < 3; ++c)
                print_.rgb[at + c] = 0.4f + 0.6f * static_cast<float>(scan.rgb[from + c]) / 255;
        });
    }

    void add(const Shown& region) {
        const Region ground = region_of(region.rings_mm, true);
        const Box box = bounds(ground);
        each_pixel([&](const dvec2& p, std::size_t at) {
            if (p.x < box.low.x || p.y < box.low.y || p.x > box.high.x || p.y > box.high.y) return;
            if (!contains(ground, p)) return;
            const double stripe = std::fmod((p.x + p.y) * scale_, 4);
            if (!region.field && stripe > 1) return;
            const glm::vec3 tint =
                region.field ? kTints[*region.field % kTints.size()] : glm::vec3(0.9f, 0.25f, 0.2f);
            for (int c = 0; c < 3; ++c) print_.rgb[at + static_cast<std::size_t>(c)] *= tint[c];
        });
        for (Ring ring : region.rings_mm) {
            ring.push_back(ring.front());
            add_line(ring, 0.2, kInk);
        }
        for (const Ring& guide : region.guides_mm) add_line(guide, 0.5, kGuide);
    }

    void add_name(const Shown& region, const Layout& layout) {
        const dvec2 at = on_page(region.at_mm);
        const EncodedSrgb& colour = region.field ? kInk : kNone;
        page_.lines.push_back(ring(at, 0.5, 1, colour));
        add_word(fmt::format("{:.0f}, {:.0f}", region.at_mm.x, region.at_mm.y), at + dvec2(0, -1.6), 2.3,
                 true, colour);
        add_word(region.field ? layout.fields[*region.field].name : "no field", at + dvec2(0, 3.4), 2.1,
                 false, colour);
    }

    /// On a pale ground of its own.
    void add_word(std::string text, const dvec2& at, double size_mm, bool bold, const EncodedSrgb& colour) {
        const PageText word{std::move(text), at, size_mm, bold, Align::centre, colour};
        const double wide = width_mm(word) + 0.8;
        page_.boxes.push_back({at - dvec2(wide / 2, 0.85 * size_mm), {wide, 1.15 * size_mm}, {1, 1, 1}});
        page_.texts.push_back(word);
    }

    void add_gap(const Ring& closing_mm) {
        const dvec2 middle = 0.5 * (closing_mm.front() + closing_mm.back()) / paper_scale_;
        page_.lines.push_back(ring(on_page(middle), 2, 0.5, kGap));
    }

    Print finished(const std::string& foot) {
        PageText how = {foot, {3, scale_ * size_mm_.y + 5}, 2.5, false, Align::left, kInk};
        add_words(page_, foot, how, page_.size_mm.x - 6, 3.7);
        print_over(print_, page_, kPx_per_mm);
        return std::move(print_);
    }

  private:
    dvec2 on_page(const dvec2& panel) const { return scale_ * dvec2(panel.x, size_mm_.y - panel.y); }
    void add_line(const Ring& points, double width, const EncodedSrgb& colour) {
        PageLine line{{}, width, colour};
        for (const dvec2& p : points) line.points_mm.push_back(on_page(p));
        page_.lines.push_back(std::move(line));
    }
    template <class Visit>
    void each_pixel(Visit visit) {
        const int rows = std::min(print_.height, static_cast<int>(scale_ * size_mm_.y * kPx_per_mm));
        for (int y = 0; y < rows; ++y)
            for (int x = 0; x < print_.width; ++x) {
                const dvec2 page = dvec2(x + 0.5, y + 0.5) / kPx_per_mm;
                visit(dvec2(page.x / scale_, size_mm_.y - page.y / scale_),
                      3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(print_.width) +
                           static_cast<std::size_t>(x)));
            }
    }

    dvec2 size_mm_;
    double scale_;        ///< of the page to the panel
    double paper_scale_;  ///< of the paper to the panel
    Page page_;
    Print print_;
};

}  // namespace

Print found_picture(const Layout& layout, const Drawing& found, const HowFound& how,
                    const BytePicture& scan) {
    const std::vector<Shown> regions = regions_of(layout, found);
    PictureOfScan picture(found, how);
    picture.add_photograph(how, scan);
    for (const Shown& region : regions) picture.add(region);
    for (const Ring& gap : how.closings_mm) picture.add_gap(gap);
    for (const Shown& region : regions) picture.add_name(region, layout);
    const auto left = std::count_if(regions.begin(), regions.end(), [](const Shown& r) { return !r.field; });
    return picture.finished(fmt::format(
        "{} regions, each with a point of the panel in it and the field that takes it, as in outline: "
        "{{scan at: [{:.0f}, {:.0f}]}}; {} that no field takes, striped red. Blue: guides. Orange rings: {} "
        "gaps closed. {:.1f} pixels a millimetre of paper.",
        regions.size(), regions.empty() ? 0 : regions.front().at_mm.x,
        regions.empty() ? 0 : regions.front().at_mm.y, left, how.closings_mm.size(), how.px_per_mm));
}

}  // namespace rakelight
