#include "materials/stock/recipe.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/colour/short_curve.h"
#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

constexpr double kWaterIndex = 1.33;

Base cement(const char* name, const ShortCurve& reflectance, float scattering_per_mm) {
    Base b;
    b.name = name;
    b.scattering_per_mm = SampledSpectrum(scattering_per_mm);
    b.absorption_per_mm = map(bands_from_short(reflectance),
                              [&](float r) { return scattering_per_mm * static_cast<float>(k_over_s(r)); });
    b.matte_deg = 30;
    b.binder_share = 0.4;
    b.fresh_scattering = 0.7;
    return b;
}

Base epoxy(const char* name, const ShortCurve& absorption, float scattering_per_mm) {
    Base b;
    b.name = name;
    b.kind = Kind::epoxy;
    b.absorption_per_mm = bands_from_short(absorption);
    b.scattering_per_mm = SampledSpectrum(scattering_per_mm);
    b.index = 1.54f;
    b.thickness_mm = 2;
    return b;
}

const std::vector<Base>& bases() {
    static const std::vector<Base> all = [] {
        Base clear = epoxy("clear-epoxy", {.05f, .02f, .012f, .008f, .006f, .005f, .005f}, 0.003f);
        clear.roughness = 0.05f;
        clear.density_g_per_cm3 = 1.12f;
        clear.weighed_g_per_cm3 = 1.12;
        Base filled = epoxy("filled-epoxy", {.10f, .05f, .035f, .03f, .028f, .027f, .027f}, 1.5f);
        filled.roughness = 0.25f;
        filled.density_g_per_cm3 = 1.6f;
        filled.weighed_g_per_cm3 = 1.6;
        filled.binder_share = 0.6;
        return std::vector{cement("white-cement", {.64f, .75f, .785f, .80f, .805f, .805f, .80f}, 12),
                           cement("grey-cement", {.33f, .37f, .385f, .395f, .40f, .40f, .40f}, 9), clear,
                           filled};
    }();
    return all;
}

std::string percent(double share) {
    return fmt::format("{:.3g} %", 100 * share);
}

const char* binder_word(const Base& base) {
    return base.kind == Kind::cement ? "the cement" : "resin with hardener";
}

/// Weighing and rounding do not make a recipe exceed its limit.
bool above(double share, double limit) {
    return share > limit * (1 + 1e-6);
}

}  // namespace

const Base* find_base(std::string_view name) {
    const auto found =
        std::find_if(bases().begin(), bases().end(), [&](const Base& b) { return b.name == name; });
    return found == bases().end() ? nullptr : &*found;
}

std::vector<std::string> base_names() {
    std::vector<std::string> r;
    for (const Base& b : bases()) r.push_back(b.name);
    return r;
}

void check_recipe(const Recipe& recipe) {
    double total = 0;
    for (const Dose& dose : recipe.doses) {
        if (!(dose.share >= 0) || !std::isfinite(dose.share))
            throw std::invalid_argument(dose.pigment.name + ": a dose must be 0 or more");
        total += dose.share;
    }
    if (total > 1)
        throw std::invalid_argument(
            fmt::format("pigments sum to {} of the binder, expected at most 100 %", percent(total)));
    if (!(recipe.thickness_mm > 0)) throw std::invalid_argument("a layer must be thicker than 0 mm");
}

Coefficients mix(const Recipe& recipe, Cure cure) {
    const Base& base = recipe.base;
    const double binder_g_per_cm3 = base.weighed_g_per_cm3 * base.binder_share;
    double volume = 1;  // of one cubic centimetre of base and what is mixed into it
    for (const Dose& dose : recipe.doses)
        volume += binder_g_per_cm3 * dose.share / dose.pigment.density_g_per_cm3;
    const double fresh = cure == Cure::fresh ? base.fresh_scattering : 1;
    Coefficients r{base.absorption_per_mm * static_cast<float>(1 / volume),
                   base.scattering_per_mm * static_cast<float>(fresh / volume)};
    for (const Dose& dose : recipe.doses) {
        // m2/g of g/cm3 are 1000 per mm.
        const auto g = static_cast<float>(1000 * binder_g_per_cm3 * dose.share / volume);
        r.absorption_per_mm += g * dose.pigment.absorption_m2_per_g;
        r.scattering_per_mm += g * dose.pigment.scattering_m2_per_g;
    }
    return r;
}

SampledSpectrum inner_reflectance(const Recipe& recipe, Cure cure) {
    const Coefficients c = mix(recipe, cure);
    SampledSpectrum r;
    for (int b = 0; b < kBandCount; ++b)
        r[b] = static_cast<float>(
            over_backing(diffuse_layer(c.absorption_per_mm[b], c.scattering_per_mm[b], recipe.thickness_mm),
                         recipe.behind[b]));
    return r;
}

double seen_face_on(double inner, double index) {
    if (index == 1) return inner;
    return through_interface(inner, dielectric_reflectance(1.0, index), diffuse_reflectance_inside(index));
}

double inner_from_seen(double seen, double index) {
    if (index == 1) return seen;
    return inside_interface(seen, dielectric_reflectance(1.0, index), diffuse_reflectance_inside(index));
}

SampledSpectrum seen_reflectance(const Recipe& recipe, Cure cure) {
    const bool watery = cure == Cure::fresh && recipe.base.index == 1;
    const double index = watery ? kWaterIndex : static_cast<double>(recipe.base.index);
    return map(inner_reflectance(recipe, cure),
               [&](float inner) { return static_cast<float>(seen_face_on(inner, index)); });
}

Material to_material(const Recipe& recipe, std::string name) {
    check_recipe(recipe);
    const Base& base = recipe.base;
    Material m;
    m.name = std::move(name);
    m.kind = base.kind;
    m.reflectance = inner_reflectance(recipe);
    m.index = base.index;
    m.roughness = base.roughness;
    m.matte_deg = base.matte_deg;
    m.thickness_mm = static_cast<float>(recipe.thickness_mm);
    m.grain = base.kind == Kind::cement ? Grain{.contrast = 0.07f, .size_mm = 0.7f, .band_ratio = 1}
                                        : Grain{.contrast = 0.02f, .size_mm = 1.5f, .band_ratio = 1};
    m.density_g_per_cm3 = base.density_g_per_cm3;
    return m;
}

double dose_limit(const Base& base, const Pigment& pigment) {
    return base.kind == Kind::cement ? pigment.cement_limit : pigment.epoxy_limit;
}

double total_limit(const Base& base) {
    return base.kind == Kind::cement ? kCementTotalLimit : kEpoxyTotalLimit;
}

std::vector<std::string> recipe_warnings(const Recipe& recipe) {
    std::vector<std::string> r;
    const bool cement = recipe.base.kind == Kind::cement;
    double total = 0;
    for (const Dose& dose : recipe.doses) {
        const Pigment& p = dose.pigment;
        total += dose.share;
        if (const double limit = dose_limit(recipe.base, p); above(dose.share, limit))
            r.push_back(
                fmt::format("{} is {} of {}, more than the {} beyond which it adds little and weakens ({})",
                            p.name, percent(dose.share), binder_word(recipe.base), percent(limit),
                            cement ? p.cement_limit_source : p.epoxy_limit_source));
        if (cement && dose.share > 0 && !p.cement_warning.empty())
            r.push_back(fmt::format("{}: {} (makers' practice, from memory)", p.name, p.cement_warning));
    }
    if (const double limit = total_limit(recipe.base); above(total, limit))
        r.push_back(fmt::format("pigments are {} of {} in all, more than {} ({})", percent(total),
                                binder_word(recipe.base), percent(limit),
                                cement ? "ASTM C979 and EN 12878" : "common practice, no published source"));
    return r;
}

std::vector<std::string> handling_warnings(const Recipe& recipe) {
    std::vector<std::string> r{
        "dry pigment is dust: fitted mask, wet wiping, no food; keep the safety sheets"};
    for (const Dose& dose : recipe.doses)
        if (dose.share > 0 && !dose.pigment.dust_warning.empty())
            r.push_back(dose.pigment.name + ": " + dose.pigment.dust_warning);
    r.emplace_back(
        recipe.base.kind == Kind::cement
            ? "wet cement burns skin and eyes; its dust holds silica"
            : "epoxy sensitises skin, often for good; its vapours irritate: nitrile gloves, fresh air");
    return r;
}

}  // namespace rakelight
