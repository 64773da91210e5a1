#include "materials/stock/recipe.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"

namespace rakelight {
namespace {

/// One gram weighed for a cubic centimetre, all of it binder.
Base plain_base(float k_per_mm, float s_per_mm) {
    Base b;
    b.absorption_per_mm = SampledSpectrum(k_per_mm);
    b.scattering_per_mm = SampledSpectrum(s_per_mm);
    b.weighed_g_per_cm3 = 1;
    return b;
}

/// A pigment that takes no room.
Pigment point_pigment(float k_m2_per_g, float s_m2_per_g) {
    Pigment p;
    p.name = "point";
    p.absorption_m2_per_g = SampledSpectrum(k_m2_per_g);
    p.scattering_m2_per_g = SampledSpectrum(s_m2_per_g);
    p.density_g_per_cm3 = std::numeric_limits<double>::infinity();
    return p;
}

Recipe in_base(const char* base, std::initializer_list<std::pair<const char*, double>> doses) {
    Recipe r;
    r.base = *find_base(base);
    r.thickness_mm = r.base.thickness_mm;
    for (const auto& [name, share] : doses) r.doses.push_back({*find_pigment(name), share});
    return r;
}

Lab lab_of(const SampledSpectrum& reflectance) {
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
    const auto seen = integrate(weights, reflectance), white = integrate(weights, SampledSpectrum(1));
    return xyz_to_lab({seen[0], seen[1], seen[2]}, {white[0], white[1], white[2]});
}

double luminance(const Recipe& recipe) {
    return integrate(tristimulus_weights(*find_illuminant("D65")), seen_reflectance(recipe))[1];
}

// Kubelka 1948, J. Opt. Soc. Am. 38, 448: R of a finite layer over a backing, worked out by hand from his
// equation with a = (S+K)/S, b = sqrt(a^2-1).
TEST(Recipe, ABaseAloneIsALayerAfterKubelka) {
    const struct {
        float k, s;
        double x, backing, r;
    } cases[] = {{.5f, 2, 1, 0, .481095}, {.5f, 2, 1, .8, .518441}, {.1f, 5, .5, .2, .704344},
                 {2, 1, .3, .9, .320724}, {1, 1, 20, .5, .267949},  {0, 3, .5, .2, .636364}};
    for (const auto& c : cases) {
        Recipe r;
        r.base = plain_base(c.k, c.s);
        r.thickness_mm = c.x;
        r.behind = SampledSpectrum(static_cast<float>(c.backing));
        EXPECT_NEAR(inner_reflectance(r)[7], c.r, 1e-6);
    }
}

// The same layers, with pigment as all there is: 0.1 % of 1 g/cm3 is 1 mg/cm3, so 1 m2/g is 1 per mm.
TEST(Recipe, PigmentAddsItsOwnAbsorptionAndScattering) {
    Recipe r;
    r.base = plain_base(0, 0);
    r.thickness_mm = 1;
    r.behind = SampledSpectrum(0.8f);
    r.doses = {{point_pigment(.5f, 2), 0.001}};
    EXPECT_NEAR(inner_reflectance(r)[3], .518441, 1e-6);
    r.doses = {{point_pigment(.5f, 0), 0.001}, {point_pigment(0, 2), 0.001}};
    EXPECT_NEAR(inner_reflectance(r)[3], .518441, 1e-6);
    r.doses = {{point_pigment(.25f, 1), 0.002}};
    EXPECT_NEAR(inner_reflectance(r)[3], .518441, 1e-6);
}

// Duncan 1940: (K/S) of a mixture is the ratio of the sums. K = 1 + 3 x 2 = 7, S = 10 + 3 x 0.5 = 11.5.
TEST(Recipe, TwoConstantMixtureOfAnEndlessLayer) {
    Recipe r;
    r.base = plain_base(1, 10);
    r.thickness_mm = 1000;
    r.doses = {{point_pigment(2, .5f), 0.003}};
    const double q = 7 / 11.5;
    EXPECT_NEAR(inner_reflectance(r)[0], 1 + q - std::sqrt(q * q + 2 * q), 1e-6);
}

// As much filler as base, of the same density and without colour of its own: everything half as dense.
TEST(Recipe, WhatIsMixedInTakesRoom) {
    Recipe r;
    r.base = plain_base(2, 10);
    Pigment filler = point_pigment(0, 0);
    filler.density_g_per_cm3 = 1;
    r.doses = {{filler, 1}};
    EXPECT_NEAR(mix(r).scattering_per_mm[5], 5, 1e-6);
    EXPECT_NEAR(mix(r).absorption_per_mm[5], 1, 1e-6);
}

// Only the binder counts: a powder that is 40 % cement gets 40 % of the pigment.
TEST(Recipe, SharesAreOfTheBinder) {
    Recipe r;
    r.base = plain_base(0, 1);
    r.base.binder_share = 0.4;
    r.doses = {{point_pigment(1, 0), 0.01}};
    EXPECT_NEAR(mix(r).absorption_per_mm[5], 4, 1e-5);
}

// Saunderson 1942 with k1 = 0.04 (Fresnel, n = 1.5) and k2 = 0.596 (Judd 1942): a body of 0.5 inside shows
// 0.96 x 0.404 x 0.5 / (1 - 0.298) = 0.2762.
TEST(Recipe, FaceOnThroughAFace) {
    EXPECT_NEAR(seen_face_on(0.5, 1.5), 0.96 * 0.404 * 0.5 / (1 - 0.298), 3e-4);
    EXPECT_EQ(seen_face_on(0.5, 1), 0.5);
    for (const double inner : {0.01, 0.2, 0.7, 0.99})
        EXPECT_NEAR(inner_from_seen(seen_face_on(inner, 1.54), 1.54), inner, 1e-12);
}

// Makers' loading tables, common practice: from 1 to 2 % shows far more than from 5 to 6 %.
TEST(Recipe, ColourSaturatesWithLoading) {
    for (const char* name : {"PBk11", "PR101", "PB28", "PG17"}) {
        const auto l = [&](double share) {
            return lab_of(seen_reflectance(in_base("white-cement", {{name, share}}))).l;
        };
        EXPECT_GT(l(.01) - l(.02), 2.5 * (l(.05) - l(.06))) << name;
        EXPECT_GT(l(.05), l(.06)) << name;
    }
}

// From memory, no published source: wet cement grout is 8 to 20 L* below cured, resin 0 to 3.
TEST(Recipe, FreshIsDarkerThanCured) {
    for (const char* base : {"white-cement", "grey-cement", "clear-epoxy", "filled-epoxy"})
        for (const Recipe& r : {in_base(base, {}), in_base(base, {{"PBk11", .01}}),
                                in_base(base, {{"PY42", .04}}), in_base(base, {{"PB28", .04}})}) {
            const double drop = lab_of(seen_reflectance(r)).l - lab_of(seen_reflectance(r, Cure::fresh)).l;
            EXPECT_GE(drop, r.base.kind == Kind::cement ? 8 : 0) << base;
            EXPECT_LE(drop, r.base.kind == Kind::cement ? 20 : 3) << base;
        }
}

// Common practice, no published source: resin is tinted at 0.5 to 1 % and opaque at 2 to 5 %. Opaque is a
// contrast ratio of 98 % over black and white (the usual full hiding, ISO 6504-3).
TEST(Recipe, LittlePigmentInClearResinShowsWhatIsBehind) {
    const auto contrast = [](double share) {
        Recipe r = in_base("clear-epoxy", {{"PW6", share}});
        r.behind = SampledSpectrum(0);
        const double over_black = luminance(r);
        r.behind = SampledSpectrum(0.8f);
        return over_black / luminance(r);
    };
    EXPECT_LT(contrast(0.005), 0.95);
    EXPECT_GT(contrast(0.05), 0.98);
}

TEST(Recipe, EveryPigmentInEveryBaseIsAReflectance) {
    for (const std::string& base : base_names())
        for (const Pigment& p : pigments())
            for (const double share : {0.0, 1e-6, 0.01, 0.1, 1.0}) {
                Recipe r = in_base(base.c_str(), {});
                r.doses = {{p, share}};
                for (const Cure cure : {Cure::cured, Cure::fresh}) {
                    EXPECT_GE(min_value(seen_reflectance(r, cure)), 0) << p.name;
                    EXPECT_LE(max_value(seen_reflectance(r, cure)), 1) << p.name;
                    EXPECT_TRUE(all_finite(seen_reflectance(r, cure))) << p.name;
                }
            }
}

TEST(Recipe, BecomesAMaterial) {
    const Recipe r = in_base("filled-epoxy", {{"PR101", 0.02}});
    const Material m = to_material(r, "brick");
    EXPECT_EQ(m.name, "brick");
    EXPECT_EQ(m.kind, Kind::epoxy);
    EXPECT_TRUE(m.opaque);
    EXPECT_EQ(m.reflectance, inner_reflectance(r));
    EXPECT_EQ(m.provenance, Provenance::invented);
    EXPECT_GT(m.index, 1);
}

bool any_holds(const std::vector<std::string>& lines, const std::string& part) {
    for (const std::string& line : lines)
        if (line.find(part) != std::string::npos) return true;
    return false;
}

TEST(Recipe, LimitsWarnAndNameTheirSource) {
    EXPECT_TRUE(recipe_warnings(in_base("white-cement", {{"PB28", 0.10}})).empty());
    EXPECT_TRUE(recipe_warnings(in_base("white-cement", {{"PBk11", 0.06}})).empty());
    EXPECT_TRUE(any_holds(recipe_warnings(in_base("white-cement", {{"PBk11", 0.07}})), "makers' practice"));
    EXPECT_TRUE(
        any_holds(recipe_warnings(in_base("white-cement", {{"PB28", 0.06}, {"PW6", 0.05}})), "ASTM C979"));
    EXPECT_TRUE(any_holds(recipe_warnings(in_base("white-cement", {{"PB27", 0.01}})), "turns brown"));
    EXPECT_TRUE(recipe_warnings(in_base("clear-epoxy", {{"PB27", 0.01}})).empty());
    EXPECT_TRUE(any_holds(recipe_warnings(in_base("clear-epoxy", {{"PBk7", 0.02}})), "common practice"));
    EXPECT_TRUE(any_holds(handling_warnings(in_base("clear-epoxy", {{"PB28", 0.02}})), "cobalt"));
    EXPECT_FALSE(any_holds(handling_warnings(in_base("clear-epoxy", {{"PB28", 0}})), "cobalt"));
}

TEST(Recipe, BadOnesAreRefused) {
    EXPECT_NO_THROW(check_recipe(in_base("white-cement", {{"PB28", 1}})));
    EXPECT_THROW(check_recipe(in_base("white-cement", {{"PB28", -0.01}})), std::invalid_argument);
    EXPECT_THROW(check_recipe(in_base("white-cement", {{"PB28", 0.6}, {"PW6", 0.5}})), std::invalid_argument);
    EXPECT_THROW(check_recipe(in_base("white-cement", {{"PB28", std::nan("")}})), std::invalid_argument);
    Recipe thin = in_base("clear-epoxy", {});
    thin.thickness_mm = 0;
    EXPECT_THROW(to_material(thin, "film"), std::invalid_argument);
    EXPECT_EQ(find_base("plaster"), nullptr);
}

}  // namespace
}  // namespace rakelight
