#include "output/glare/measures/expected_glare.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/optics/fresnel.h"
#include "output/glare/measures/lit_share.h"

namespace rakelight {

namespace {

glm::dvec2 slope_between(const glm::dvec3& to_eye, const glm::dvec3& to_lamp) {
    const glm::dvec3 half = to_eye + glm::normalize(to_lamp);
    return -glm::dvec2(half) / half.z;
}

// A part of a lamp in panel coordinates.
struct SeenPart {
    const LampPart* part = nullptr;
    glm::dvec3 at_mm{}, half_u_mm{}, half_v_mm{};
    double reach_mm = 0;
};

struct Facing {
    glm::dvec3 to_eye{};
    double far_mm = 0;
};

// The rectangle of slopes that mirror a part, made upright where the part looks slanting.
MirroredSlopes image_of(const SeenPart& part, const glm::dvec3& to_lamp, const glm::dvec2& middle,
                        const glm::dvec2& slope, const glm::dvec3& to_eye) {
    const glm::dvec2 u = slope_between(to_eye, to_lamp + part.half_u_mm) - middle;
    const glm::dvec2 v = slope_between(to_eye, to_lamp + part.half_v_mm) - middle;
    const double long_u = std::max(glm::length(u), 1e-9);
    const glm::dvec2 x = u / long_u, y(-x.y, x.x), from = slope - middle;
    return {glm::dot(from, x), glm::dot(from, y), long_u, std::max(std::abs(glm::dot(v, y)), 1e-9)};
}

// How many tens the light of a face outshines what nobody minds, in the mean over the face. `most`: of the
// lamp's own image, in a smooth face. A rough one spreads it as GGX facets do, (1 + (r / alpha)^2)^-2 (Walter
// et al. 2007): what is brighter than a level is then a larger rectangle, and the tens are the levels passed.
double mean_tens(const MirroredSlopes& image, const SlopeSpread& face, double rough, double most) {
    constexpr double kSmooth = 5e-4, kStep = 0.5;  // of ten
    if (rough < kSmooth) return most > 1 ? std::log10(most) * lit_share(image, face) : 0;
    const double middle = most * image.half_x / std::hypot(image.half_x, rough) * image.half_y /
                          std::hypot(image.half_y, rough);
    double sum = 0;
    for (double level = kStep / 2; middle > std::pow(10, level); level += kStep) {
        const double tail = rough * std::sqrt(std::sqrt(middle / std::pow(10, level)) - 1);
        MirroredSlopes wide = image;
        wide.half_x += tail;
        wide.half_y += tail;
        sum += kStep * lit_share(wide, face);
    }
    return sum;
}

// Of what is rounded: the edge of a piece, or the whole of a lump.
double share_of_rounds(const SmallMirror& mirror, const MirroredSlopes& image, const glm::dvec3& half,
                       double toward, double eye_z) {
    const double solid = 4 * image.half_x * image.half_y * half.z * half.z * half.z;  // of normals, sr
    if (mirror.round_all_over)  // a ball's normals: every way alike
        return std::min(1.0, solid * toward / std::numbers::pi);
    // A quarter of a round bar: its normals lie evenly about the piece, at any height over it.
    const double aside = std::max(std::hypot(half.x, half.y), 0.02);
    return mirror.edge_share * std::min(1.0, toward * solid / (2 * std::numbers::pi * aside * eye_z));
}

glm::dvec3 in_room(const PanelFrame& hang, const glm::dvec3& panel_mm) {
    return hang.origin_mm + hang.to_room(panel_mm);
}

constexpr double kFarthestTail = 18;  // of the roughness, where a lamp 100 000 times too bright is still seen

class Reckoning {
  public:
    Reckoning(const Emitter& lamp, const PanelFrame& hang, const GlareTerms& terms)
        : lamp_(lamp), hang_(hang), terms_(terms) {}

    // Of one piece and one part, without the piece's size.
    double glare(const SmallMirror& mirror, const SeenPart& part, const Facing& eye) const {
        const glm::dvec3 to = part.at_mm - mirror.at_mm;
        const double far = glm::length(to);
        if (to.z <= 0.001 * far) return 0;
        const glm::dvec3 to_lamp = to / far, sum = eye.to_eye + to_lamp;
        const double sum_length = glm::length(sum);
        if (sum_length < 1e-6) return 0;
        const glm::dvec3 half = sum / sum_length;
        const double toward = glm::dot(half, eye.to_eye);  // cosine on the facet
        const glm::dvec2 middle = -glm::dvec2(half) / half.z;
        // The head's restlessness turns the half vector by half the angle.
        const double restless = terms_.head_mm / (2 * eye.far_mm * toward * half.z);
        const double body = mirror.body_round * terms_.lux / std::numbers::pi;
        const double tens_of_least = 1 / (std::max(body, 1e-9) * (terms_.veil - 1));
        // Over the piece the half vector turns too, as if a flat face were bulged by so much.
        const double turns_per_mm = 0.5 * (1 / eye.far_mm + 1 / far);
        const SlopeSpread spread{std::abs(mirror.bulge_per_mm + turns_per_mm) * mirror.half_mm,
                                 std::hypot(mirror.wave_slope, restless)};
        const double wide =
            part.reach_mm / (far * toward * half.z * half.z) + kFarthestTail * mirror.rough_slope;
        const double reach = 1.5 * (wide + spread.even) + 6 * spread.deviation;
        const glm::dvec2 from = mirror.slope - middle;
        const bool near = !mirror.round_all_over && glm::dot(from, from) < reach * reach;
        if (!near && !(mirror.edge_share > 0) && !mirror.round_all_over) return 0;

        const double most = luminance_toward(lamp_, *part.part, in_room(hang_, mirror.at_mm)) *
                            dielectric_reflectance(toward, mirror.index) * tens_of_least;
        if (!(most > 1)) return 0;
        const MirroredSlopes image = image_of(part, to, middle, mirror.slope, eye.to_eye);
        double tens = 0;
        if (near) tens += (1 - mirror.edge_share) * mean_tens(image, spread, mirror.rough_slope, most);
        tens += std::log10(most) * share_of_rounds(mirror, image, half, toward, eye.to_eye.z);
        return mirror.glossy_share * tens;
    }

  private:
    const Emitter& lamp_;
    const PanelFrame& hang_;
    const GlareTerms& terms_;
};

}  // namespace

double glare_weight(double mirrored_cd_per_m2, double body_cd_per_m2, double veil) {
    const double times = mirrored_cd_per_m2 / (std::max(body_cd_per_m2, 1e-9) * (veil - 1));
    return times > 1 ? std::log10(times) : 0;
}

MeterGrid meter_grid(const Panel& panel) {
    constexpr double kInFront_mm = 20;
    MeterGrid grid;
    for (int j = 0; j < MeterGrid::kUp; ++j)
        for (int i = 0; i < MeterGrid::kAcross; ++i)
            grid.at_mm.emplace_back((i + 0.5) / MeterGrid::kAcross * panel.width_mm,
                                    (j + 0.5) / MeterGrid::kUp * panel.height_mm, kInFront_mm);
    return grid;
}

std::vector<double> lux_of(const Emitter& lamp, const PanelFrame& hang, const MeterGrid& meter) {
    std::vector<double> lux;
    for (const glm::dvec3& at : meter.at_mm) {
        const glm::dvec3 here = in_room(hang, at);
        double sum = 0;
        for (const LampPart& part : parts_of(lamp, here)) sum += lux_on(lamp, part, here, hang.axes[2]);
        lux.push_back(sum);
    }
    return lux;
}

LampEffect effect_of(const Emitter& lamp, const PanelFrame& hang, std::span<const SmallMirror> mirrors,
                     std::span<const glm::dvec3> eyes_mm, const MeterGrid& meter, const GlareTerms& terms) {
    LampEffect effect;
    effect.lux = lux_of(lamp, hang, meter);
    effect.score.assign(eyes_mm.size(), 0);
    const glm::dvec3 middle = meter.at_mm[meter.at_mm.size() / 2];
    const std::vector<LampPart> parts = parts_of(lamp, in_room(hang, middle));
    std::vector<SeenPart> seen;
    for (const LampPart& part : parts)
        seen.push_back({&part, hang.to_panel_mm(part.at_mm), hang.to_panel(part.half_u_mm),
                        hang.to_panel(part.half_v_mm),
                        std::max(glm::length(part.half_u_mm), glm::length(part.half_v_mm))});
    const Reckoning reckoning(lamp, hang, terms);
    for (std::size_t e = 0; e < eyes_mm.size(); ++e) {
        const glm::dvec3 eye = hang.to_panel_mm(eyes_mm[e]);
        double sum = 0, size = 0;
        for (const SmallMirror& mirror : mirrors) {
            const glm::dvec3 to = eye - mirror.at_mm;
            if (to.z <= 0) continue;
            const double far = glm::length(to);
            const double sr = mirror.area_mm2 * to.z / (far * far * far);
            size += sr;
            if (mirror.index <= 1) continue;
            const Facing facing{to / far, far};
            for (const SeenPart& part : seen) sum += sr * reckoning.glare(mirror, part, facing);
        }
        if (size > 0) effect.score[e] = 100 * sum / size;
    }
    return effect;
}

}  // namespace rakelight
