#include "materials/stock/finish.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "materials/optics/fresnel.h"
#include "materials/optics/surface.h"
#include "materials/stock/gloss.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"
#include "materials/stock/wetting.h"
#include "tests/support/one_surface.h"

namespace rakelight {
namespace {

Surface surface(const Material& m) {
    static InterfaceTables cache;
    return make_surface(m, m.thickness_mm, SampledSpectrum(0.5f), 1, cache);
}

SampledSpectrum body(const Material& m) {  // seen head-on beside the mirror
    const Surface s = surface(m);
    return directional_albedo(s, 1) - SampledSpectrum(1 - s.transmittance(1));
}

double gloss(const Material& m) {
    return gloss_units(surface(m), GlossAngle::deg60);
}

const char* const kBareStones[] = {"pumice", "scoria", "basalt", "limestone", "concrete"};

// What is not mirrored by the film is Lekner and Dorf's wet albedo of soaked ground, under uniform light.
TEST(Finish, WetStoneIsLeknerAndDorfs) {
    for (const char* name : kBareStones) {
        const Material& dry = *find_stock(name);
        const Material wet = finished(dry, Finish::wet);
        const Surface s = surface(wet);
        double seen = 0, weight = 0;
        for (double z = 0.005; z < 1; z += 0.01) {
            seen += z * directional_albedo(s, static_cast<float>(z))[8];
            weight += z;
        }
        const double a = soaked_absorptance(1 - dry.reflectance[8], 1.333);
        const double expected =
            1 - wet_absorptance(a, diffuse_reflectance_outside(1.333), diffuse_reflectance_inside(1.333));
        EXPECT_NEAR(seen / weight, expected, 3e-3) << name;
    }
}

TEST(Finish, FilmsDarkenBareStoneAndGroutAndMakeThemGlossier) {
    std::vector<Material> dry;
    for (const char* name : kBareStones) dry.push_back(*find_stock(name));
    for (const char* name : {"pale-grey", "charcoal", "sand"}) dry.push_back(*find_tint(name));
    for (const Material& m : dry)
        for (const Finish f : {Finish::wet, Finish::sealed, Finish::waxed}) {
            const Material after = finished(m, f);
            const SampledSpectrum a = body(m), b = body(after);
            for (int i = 0; i < kBandCount; ++i) EXPECT_LT(b[i], a[i]) << m.name;
            // Saturates: what is darker loses a greater share.
            EXPECT_GE(max_value(b) / min_value(b), 0.999f * max_value(a) / min_value(a)) << m.name;
            // Threshold of our own, only to catch a slip; so are the gloss figures below.
            EXPECT_GT(gloss(after), gloss(m) + 3) << m.name;
        }
    // The smoother film is glossier: water, then wax, then satin sealer.
    const Material& stone = *find_stock("basalt");
    EXPECT_GT(gloss(finished(stone, Finish::wet)), gloss(finished(stone, Finish::waxed)));
    EXPECT_GT(gloss(finished(stone, Finish::waxed)), gloss(finished(stone, Finish::sealed)));
}

TEST(Finish, SmoothGlassAndResinStayAsTheyAreUnderAFilm) {
    for (const char* name : {"aqua", "jet", "ruby"})
        for (const Finish f : {Finish::wet, Finish::sealed, Finish::waxed}) {
            const Material &dry = *find_stock(name), after = finished(dry, f);
            EXPECT_EQ(body(after), body(dry)) << name;
            EXPECT_EQ(after.roughness, dry.roughness);
        }
    // A sandblasted one turns clear again.
    const Material blasted = finished(*find_stock("aqua"), Finish::sandblasted);
    EXPECT_LT(gloss(blasted), 15);
    EXPECT_NEAR(gloss(finished(blasted, Finish::wet)), gloss(*find_stock("aqua")), 0.1);
}

// A film on a faced stone changes how the face mirrors, not the colour under it.
TEST(Finish, WetSlateMirrorsInsteadOfScattering) {
    const Material &dry = *find_stock("slate"), wet = finished(dry, Finish::wet);
    const SampledSpectrum a = body(dry), b = body(wet);
    for (int i = 0; i < kBandCount; ++i) EXPECT_NEAR(b[i], a[i], 0.06f * a[i]);
    EXPECT_GT(gloss(wet), gloss(dry) + 20);
    const glm::vec3 out = glm::normalize(glm::vec3(0.5f, 0, 1)), in = glm::normalize(glm::vec3(0, 0.6f, 1));
    const Surface film = surface(wet), bare = surface(dry);
    EXPECT_LT(evaluate(SurfaceLanes(film, out), in).interface,
              0.2f * evaluate(SurfaceLanes(bare, out), in).interface);
}

// Cement haze takes 10 to 40 units off a gloss of about 90 (common practice, no published source) and lays a
// veil over the dark.
TEST(Finish, HazeDullsAndVeils) {
    for (const char* name : {"jet", "ruby", "deep-teal"}) {
        const Material &clean = *find_stock(name), hazed = finished(clean, Finish::hazed);
        const double lost = gloss(clean) - gloss(hazed);
        EXPECT_GT(lost, 10) << name;
        EXPECT_LT(lost, 40) << name;
        const SampledSpectrum a = body(clean), b = body(hazed);
        for (int i = 0; i < kBandCount; ++i) EXPECT_GT(b[i], a[i]) << name;
        EXPECT_GT(b[6], 0.01f);
    }
    // White stays white: the film does not absorb.
    Material white = *find_stock("jet");
    white.reflectance = SampledSpectrum(1);
    EXPECT_NEAR(directional_albedo(surface(finished(white, Finish::hazed)), 0.7f)[3], 1, 1e-4);
}

TEST(Finish, RoughFinishesDull) {
    for (const char* name : {"aqua", "jet", "quartz-pebble"}) {
        const Material& m = *find_stock(name);
        const double before = gloss(m), tumbled = gloss(finished(m, Finish::tumbled)),
                     blasted = gloss(finished(m, Finish::sandblasted));
        EXPECT_LE(tumbled, before);
        EXPECT_LT(blasted, tumbled);
    }
}

TEST(Finish, PoresDarken) {
    const Material &m = *find_stock("pumice"), open = porous(m, 0.3);
    for (int i = 0; i < kBandCount; ++i)
        EXPECT_FLOAT_EQ(open.reflectance[i], static_cast<float>(open_pores(m.reflectance[i], 0.3)));
    EXPECT_THROW(porous(*find_stock("aqua"), 0.3), std::invalid_argument);
}

// A film on bare wood darkens it by Lekner and Dorf's law, and taking it off undoes that: what oak is in the
// stock, under a face of index 1.5, comes of raw oak again under lacquer of that index, but for what a
// smoother face changes.
TEST(Finish, TimberIsRawBeforeItIsOiledWaxedOrLacquered) {
    for (const char* name : {"oak", "dark-oak", "floorboards"}) {
        const Material &m = *find_stock(name), raw = finished(m, Finish::raw);
        EXPECT_EQ(raw.index, 1);
        for (int i = 0; i < kBandCount; ++i) {
            EXPECT_NEAR(1 - soaked_absorptance(1 - raw.reflectance[i], m.index), m.reflectance[i], 1e-6)
                << name;
            EXPECT_GT(body(raw)[i], body(m)[i]) << name;
        }
        const Material lacquered = finished(m, Finish::lacquered), waxed = finished(m, Finish::waxed),
                       oiled = finished(m, Finish::oiled);
        for (int i = 0; i < kBandCount; ++i)
            EXPECT_NEAR(lacquered.reflectance[i], m.reflectance[i], 1e-5) << name;
        EXPECT_GT(gloss(lacquered), gloss(waxed));
        EXPECT_GT(gloss(waxed), gloss(oiled));
        EXPECT_GT(gloss(oiled), gloss(raw));
        const SampledSpectrum over_wax = finished(waxed, Finish::lacquered).reflectance;
        for (int i = 0; i < kBandCount; ++i)
            EXPECT_NEAR(over_wax[i], lacquered.reflectance[i], 1e-6) << "the wax comes off first";
    }
    const Material& stone = *find_stock("basalt");
    EXPECT_EQ(body(finished(stone, Finish::raw)), body(stone));
}

TEST(Finish, EveryWordIsAFinishThatStaysWithinItsLimits) {
    EXPECT_EQ(finish_words().size(), 10u);
    for (const std::string& name : stock_names())
        for (std::size_t i = 0; i < finish_words().size(); ++i) {
            const Material once = finished(*find_stock(name), static_cast<Finish>(i));
            EXPECT_NO_THROW(surface(once)) << name << ' ' << finish_words()[i];
            for (std::size_t k = 0; k < finish_words().size(); ++k)
                EXPECT_NO_THROW(surface(finished(once, static_cast<Finish>(k)))) << name;
        }
}

}  // namespace
}  // namespace rakelight
