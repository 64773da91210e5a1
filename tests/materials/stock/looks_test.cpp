#include "materials/stock/looks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "materials/stock/stock.h"

namespace rakelight {
namespace {

Lab lab_under(const std::string& light, const SampledSpectrum& s) {
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant(light));
    const auto v = integrate(weights, s), w = integrate(weights, SampledSpectrum(1));
    return xyz_to_lab({v[0], v[1], v[2]}, {w[0], w[1], w[2]});
}

Lab seen(const Material& m, const WantedLook& look, const std::string& light = "D65") {
    InterfaceTables faces;
    return lab_under(light, face_on_reflectance(m, look.thickness_mm, look.behind, 1, faces));
}

// The colours of real pieces can be had: each glass of the shelf, asked for from each other of its family by
// its colour alone, comes within CIEDE2000 0.5.
TEST(Looks, TheColourOfOneGlassFromAnother) {
    int had = 0;
    for (const char* family : {"aqua", "ruby", "kelp-amber", "sea-green", "clear"})
        for (const char* asked : {"aqua", "kelp-amber", "bottle-green", "deep-teal", "ruby"}) {
            WantedLook look{{}, 2, SampledSpectrum(0.85f)};
            look.lab = seen(*find_stock(asked), look);
            const Looking r = looking_like(*find_stock(family), look);
            EXPECT_LE(r.delta_e, 0.5) << asked << " from " << family;
            EXPECT_NEAR(ciede2000(seen(r.material, look), look.lab), r.delta_e, 1e-3);
            EXPECT_EQ(r.material.provenance, Provenance::guessed);
            EXPECT_EQ(r.material.scattering_per_mm, find_stock(family)->scattering_per_mm);
            ++had;
        }
    EXPECT_EQ(had, 25);
}

TEST(Looks, OpaqueAsWell) {
    for (const char* family : {"coral", "jet", "foam-white", "slate", "oak", "slag"})
        for (const Lab asked : {Lab{60, 10, 20}, Lab{35, -12, -8}, Lab{80, -5, 25}, Lab{45, 30, 12}}) {
            const Looking r = looking_like(*find_stock(family), {asked, 6, {}});
            EXPECT_LE(r.delta_e, 0.5) << family << ' ' << asked.l;
            for (const float each : r.material.reflectance.v) EXPECT_TRUE(each > 0 && each < 1);
        }
}

// Closest to its family: the family member's own colour leaves it as it is, and a deeper piece of the same
// colorant (Bouguer-Lambert: absorption times 1.6) is found as such, so that it keeps its colour under other
// lamps as a flat curve's metamer would not.
TEST(Looks, StaysInTheFamily) {
    const Material& aqua = *find_stock("aqua");
    WantedLook look{{}, 3, SampledSpectrum(0.85f)};
    look.lab = seen(aqua, look);
    const Looking same = looking_like(aqua, look);
    for (int b = 0; b < kBandCount; ++b)
        EXPECT_NEAR(same.material.absorption_per_mm[b], std::max(aqua.absorption_per_mm[b], 2e-3f),
                    0.01 * aqua.absorption_per_mm[b] + 1e-3);
    Material deeper = aqua;
    deeper.absorption_per_mm *= 1.6f;
    look.lab = seen(deeper, look);
    const Looking found = looking_like(aqua, look);
    EXPECT_LT(ciede2000(seen(found.material, look, "A"), seen(deeper, look, "A")), 0.5);
    EXPECT_LT(ciede2000(seen(found.material, look, "LED-B3"), seen(deeper, look, "LED-B3")), 0.5);
}

TEST(Looks, SaysHowFarOffWhenItCannotBe) {
    // Brighter than its bed: no absorption brings that.
    const Looking r = looking_like(*find_stock("ruby"), {{95, 0, 0}, 3, SampledSpectrum(0.3f)});
    EXPECT_GT(r.delta_e, 5);
    EXPECT_GT(r.lab.l, 40);  // but as near as it goes: clear over that bed is L* 55 or so, by Saunderson
    EXPECT_THROW(looking_like(Material{.sheets = {BodyLayer{}}}, {}), std::invalid_argument);
    EXPECT_THROW(looking_like(Material{.leaf = Leaf::gold}, {}), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
