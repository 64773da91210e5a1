// Grout spread by hand against plain grout, and patterned sheets against level ones: the mean colour stays.
// Brute force over places, lit and seen through the whole BSDF; the bound of grout, half of CIEDE2000 = 1, is
// what an eye does not tell apart.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/colour/ciede2000.h"
#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/maths/basis.h"
#include "materials/maths/hash.h"
#include "materials/optics/marked.h"
#include "materials/optics/surface_lanes.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"

namespace rakelight {
namespace {

// What comes to an eye upright over a joint 1.5 mm wide, of a lamp at `lamp_deg` from upright.
SampledSpectrum seen(const Material& tint, double lamp_deg, bool spread) {
    InterfaceTables cache;
    const Surface surface = make_surface(tint, 5, SampledSpectrum(0.f), 1, cache);
    const Marks marks = marks_of(tint);
    Rng rng(17);
    SampledSpectrum sum;
    constexpr int kPlaces = 6000;
    for (int i = 0; i < kPlaces; ++i) {
        MarkedPlace p;
        p.at_mm = {rng.within(0, 4000), rng.within(0, 4000), 3};
        p.seed = 9;
        const double across = rng.within(0, 1.5), way = rng.within(0, 2 * std::numbers::pi);
        p.edge_mm = static_cast<float>(std::min(across, 1.5 - across));
        p.inward = glm::vec2(std::cos(way), std::sin(way)) * (across < 0.75 ? 1.f : -1.f);
        const SeenMarking look = spread ? look_at(marks, p) : SeenMarking{};
        const Basis frame(glm::normalize(glm::vec3(0, 0, 1) - look.slope));
        const double lamp = lamp_deg * std::numbers::pi / 180;
        const glm::vec3 to_lamp(std::sin(lamp), 0, std::cos(lamp)), eye(0, 0, 1);
        const auto local = [&](const glm::vec3& v) {
            return glm::vec3(glm::dot(v, frame.x), glm::dot(v, frame.y), glm::dot(v, frame.z));
        };
        const glm::vec3 in = local(to_lamp);
        if (in.z <= 0) continue;
        const SurfaceLanes lanes(surface, local(eye), std::min(look.scale, surface.max_base_scale));
        sum += lanes.base(0, lanes.evaluate(broadcast3(in)).base);
    }
    return sum * (static_cast<float>(std::numbers::pi) / kPlaces);
}

Lab lab_of(const SampledSpectrum& reflectance, const SampledSpectrum& white) {
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
    const auto xyz = [&](const SampledSpectrum& r) {
        const auto c = integrate(weights, r);
        return Xyz{c[0], c[1], c[2]};
    };
    return xyz_to_lab(xyz(reflectance), xyz(white));
}

TEST(GroutSpreadByHand, KeepsItsMeanColour) {
    for (const char* name : {"white", "sand", "sea-green", "black", "epoxy-mid-grey"})
        for (const double lamp_deg : {0.0, 30.0, 60.0}) {
            const Material plain = *find_tint(name);
            Material sandy = plain;
            sandy.markings.sand = {0.4f, 0.12f};
            sandy.markings.meniscus.width_mm = 0.6f;
            sandy.markings.mottling = {0.04f, 60};
            const SampledSpectrum white(static_cast<float>(std::cos(lamp_deg * std::numbers::pi / 180)));
            const double off = ciede2000(lab_of(seen(plain, lamp_deg, false), white),
                                         lab_of(seen(sandy, lamp_deg, true), white));
            EXPECT_LT(off, 0.5) << name << " " << lamp_deg;
        }
}

// Light that enters through a wavy face, and leaves through it, is as much as through a level one: of the
// body beneath, a large face shows the same.
TEST(FaceOfASheet, KeepsTheMeanOfItsBody) {
    for (const char* name : {"kelp-amber", "aqua", "opal"})
        for (const Pattern pattern : {Pattern::rolled, Pattern::hammered, Pattern::rippled, Pattern::granite,
                                      Pattern::stippled, Pattern::blowholes})
            for (const double lamp_deg : {0.0, 30.0, 60.0}) {
                const Material plain = *find_stock(name);
                Material patterned = plain;
                patterned.markings.face = {pattern, 6, 8};
                const float level = mean(seen(plain, lamp_deg, false));
                EXPECT_NEAR(mean(seen(patterned, lamp_deg, true)), level, 0.02f * level)
                    << name << " " << lamp_deg;
            }
}

}  // namespace
}  // namespace rakelight
