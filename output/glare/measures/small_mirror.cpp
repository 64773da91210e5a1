#include "output/glare/measures/small_mirror.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <tuple>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "scene/forms/piece_form.h"
#include "scene/forms/relief.h"
#include "scene/geometry/point_grid.h"
#include "scene/geometry/region.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kLeastBody = 0.05;  // of the panel's mean

// Radius of the edge, mean over the sides: of those that the kiln left sharp, one or two in four are rounded.
double edge_radius_mm(const FormRule& rule) {
    const auto middle = [](const Span& s) { return static_cast<double>(s.low + s.high) / 2; };
    const auto all_round = static_cast<double>(rule.polished_share);
    const double polished = all_round > 0 ? all_round + (1 - all_round) * 1.5 / 4 : 0;
    return polished * middle(rule.polished_mm) + (1 - polished) * middle(rule.arris_mm);
}

// A plane, a bulge and what is left, fitted to the slopes of the relief over the piece.
void fit_face(SmallMirror& mirror, const Piece& piece, const Material& material, const FormRule& rule) {
    const Ring& outline = piece.outline_mm;
    const glm::dvec2 heart = centroid(outline), centre = star_centre(outline).value_or(heart);
    FaceRelief relief(rule.face, material, static_cast<float>(mean_half_width_mm(outline)), piece.seed,
                      static_cast<float>(farthest_mm(outline, centre)));
    if (piece.dome_mm) relief.set_dome(static_cast<float>(*piece.dome_mm));
    constexpr int kSide = 9;
    const Box box = bounds(outline);
    std::vector<glm::dvec2> at, slopes;
    for (int j = 0; j < kSide; ++j)
        for (int i = 0; i < kSide; ++i) {
            const glm::dvec2 p = box.low + box.size() * (glm::dvec2(i, j) + 0.5) / double(kSide);
            if (!contains(outline, p)) continue;
            at.push_back(p - heart);
            slopes.emplace_back(relief.at(glm::vec2(p - centre)).slope);
        }
    mirror.slope = glm::tan(piece.tilt_rad);
    mirror.half_mm = std::sqrt(mirror.area_mm2) / 2;
    const auto n = static_cast<double>(at.size());
    if (at.size() < 4) return;
    glm::dvec2 middle(0), mean(0);
    for (std::size_t k = 0; k < at.size(); ++k) middle += at[k] / n, mean += slopes[k] / n;
    double turn = 0, size = 0;
    for (std::size_t k = 0; k < at.size(); ++k) {
        turn += glm::dot(slopes[k] - mean, at[k] - middle);
        size += glm::dot(at[k] - middle, at[k] - middle);
    }
    const double bulge = turn / size;  // slope per mm
    double left = 0;
    for (std::size_t k = 0; k < at.size(); ++k) {
        const glm::dvec2 d = slopes[k] - mean - bulge * (at[k] - middle);
        left += glm::dot(d, d);
    }
    mirror.slope += mean;
    mirror.bulge_per_mm = -bulge;
    mirror.half_mm = std::sqrt(3 * size / (2 * n));
    mirror.wave_slope = std::sqrt(left / (2 * n));
}

// What lies below the face; few materials, many pieces.
class Bodies {
  public:
    explicit Bodies(const Layout& layout)
        : layout_(layout), light_(tristimulus_weights(*find_illuminant("D65"))) {}

    double of(const Piece& piece) {
        const Material& m = layout_.stock[piece.material];
        std::optional<std::uint32_t> bed;
        if (!m.opaque) bed = layout_.fields[piece.field].bed;
        const int half_mm = m.opaque ? 0 : std::max(1, static_cast<int>(std::lround(2 * piece.thickness_mm)));
        const auto [at, fresh] = known_.try_emplace({piece.material, bed, half_mm}, 0.0);
        if (fresh) {
            const SampledSpectrum backing = bed ? layout_.tints[*bed].reflectance : SampledSpectrum(0.0f);
            const double thickness = m.opaque ? piece.thickness_mm : half_mm / 2.0;
            at->second = static_cast<double>(
                integrate(light_, face_on_reflectance(m, thickness, backing, 1, tables_))[1]);
        }
        return at->second;
    }

  private:
    const Layout& layout_;
    TristimulusWeights light_;
    InterfaceTables tables_;
    std::map<std::tuple<std::uint32_t, std::optional<std::uint32_t>, int>, double> known_;
};

void look_round(std::vector<SmallMirror>& mirrors, double reach_mm) {
    double area = 0, light = 0;
    PointGrid<std::size_t> grid(reach_mm);
    for (std::size_t i = 0; i < mirrors.size(); ++i) {
        area += mirrors[i].area_mm2;
        light += mirrors[i].body * mirrors[i].area_mm2;
        grid.add(glm::dvec2(mirrors[i].at_mm), i);
    }
    if (!(area > 0)) return;
    const double least = kLeastBody * light / area;
    tbb::parallel_for(std::size_t{0}, mirrors.size(), [&](std::size_t i) {
        const glm::dvec2 here(mirrors[i].at_mm);
        double of_area = 0, of_light = 0;
        grid.each_near(here, 1, [&](std::size_t k) {
            const glm::dvec2 aside = glm::abs(glm::dvec2(mirrors[k].at_mm) - here);
            if (std::max(aside.x, aside.y) > reach_mm) return;
            of_area += mirrors[k].area_mm2;
            of_light += mirrors[k].area_mm2 * mirrors[k].body;
        });
        mirrors[i].body_round = std::max(of_light / of_area, least);
    });
}

}  // namespace

std::vector<SmallMirror> small_mirrors(const Layout& layout, const Laying& laying, double neighbourhood_mm) {
    std::vector<SmallMirror> mirrors(laying.pieces.size());
    tbb::parallel_for(std::size_t{0}, mirrors.size(), [&](std::size_t i) {
        const Piece& piece = laying.pieces[i];
        const Material& m = layout.stock[piece.material];
        SmallMirror& mirror = mirrors[i];
        mirror.field = piece.field;
        mirror.area_mm2 = area_mm2(piece.outline_mm);
        mirror.at_mm = {centroid(piece.outline_mm), piece.top_mm};
        const bool patches = m.kind == Kind::slag && m.glassy_share > 0;
        mirror.index = static_cast<double>(patches ? m.glassy_index : m.index);
        mirror.glossy_share = patches ? static_cast<double>(m.glassy_share) : 1;
        const auto alpha = static_cast<double>(patches ? m.glassy_roughness : m.roughness);
        mirror.rough_slope = alpha;
        mirror.round_all_over = is_lump(piece.form);
        if (mirror.round_all_over) return;
        const FormRule rule = form_rule(piece.form, m);
        mirror.edge_share =
            std::min(0.5, edge_radius_mm(rule) * perimeter_mm(piece.outline_mm) / mirror.area_mm2);
        fit_face(mirror, piece, m, rule);
    });
    Bodies bodies(layout);
    for (std::size_t i = 0; i < mirrors.size(); ++i) mirrors[i].body = bodies.of(laying.pieces[i]);
    look_round(mirrors, std::max(neighbourhood_mm, 1.0));
    return mirrors;
}

}  // namespace rakelight
