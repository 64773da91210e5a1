#include "materials/stock/stock.h"

#include <algorithm>
#include <cmath>

#include "materials/colour/short_curve.h"

namespace rakelight {
namespace {

// Curves: 400 to 700 nm every 50.

// Fused glass reads 85 to 95 gloss units at 60 degrees: common practice, no published source.
constexpr float kFirePolished = 0.006f;
constexpr float kRiven = 2;  // slate's sheen across its bedding over that along it

struct ClearGlass {
    const char* name;
    ShortCurve transmittance_3mm;  // inside, without the faces
    float scattering_per_mm;
    float tone_spread;
};

// clang-format off
constexpr ClearGlass kClearGlasses[] = {
    {"abyss", {.12f, .17f, .075f, .026f, .010f, .008f, .022f}, .002f, .12f},
    {"deep-teal", {.045f, .13f, .24f, .15f, .040f, .016f, .024f}, .002f, .14f},
    {"bottle-green", {.020f, .065f, .27f, .41f, .21f, .085f, .10f}, .002f, .15f},
    {"sea-green", {.27f, .47f, .68f, .66f, .46f, .31f, .33f}, .003f, .18f},
    {"aqua", {.84f, .93f, .955f, .945f, .89f, .83f, .83f}, .004f, .20f},
    {"kelp-amber", {.018f, .06f, .21f, .44f, .61f, .69f, .73f}, .002f, .20f},
    {"ruby", {.020f, .008f, .006f, .012f, .20f, .42f, .50f}, .001f, .12f},
    {"clear", {.965f, .975f, .985f, .985f, .975f, .968f, .965f}, .0005f, .05f},
    {"opal", {.93f, .955f, .965f, .965f, .96f, .955f, .95f}, .35f, .08f},
};
// clang-format on

Material clear_glass(const ClearGlass& g) {
    Material m;
    m.name = g.name;
    m.kind = Kind::glass;
    m.opaque = false;
    m.absorption_per_mm =
        map(bands_from_short(g.transmittance_3mm), [](float t) { return -std::log(t) / 3; });
    m.scattering_per_mm = SampledSpectrum(g.scattering_per_mm);
    m.index = 1.52f;
    m.roughness = kFirePolished;
    m.ripple_deg = 1.0f;
    m.ripple_size_mm = 9;
    m.tone_spread = g.tone_spread;
    m.density_g_per_cm3 = 2.5f;
    return m;
}

struct OpaqueGlass {
    const char* name;
    ShortCurve inner;  // reflectance of the body inside the face
    float tone_spread;
};

// clang-format off
constexpr OpaqueGlass kOpaqueGlasses[] = {
    {"foam-white", {.80f, .92f, .94f, .945f, .94f, .935f, .93f}, .15f},
    {"celadon", {.58f, .72f, .81f, .83f, .75f, .68f, .68f}, .12f},
    {"sky", {.68f, .81f, .75f, .61f, .49f, .43f, .49f}, .12f},
    {"storm-grey", {.41f, .45f, .455f, .44f, .42f, .41f, .41f}, .16f},
    {"coral", {.28f, .30f, .33f, .46f, .79f, .87f, .89f}, .10f},
    {"jet", {.018f, .018f, .018f, .018f, .018f, .018f, .020f}, .05f},
};
// clang-format on

Material opaque_glass(const OpaqueGlass& g) {
    Material m;
    m.name = g.name;
    m.kind = Kind::glass;
    m.reflectance = bands_from_short(g.inner);
    m.index = 1.52f;
    m.roughness = kFirePolished;
    m.ripple_deg = 1.4f;
    m.ripple_size_mm = 7;
    m.tone_spread = g.tone_spread;
    m.grain = {.contrast = 0.03f, .size_mm = 4, .band_ratio = 2};
    m.density_g_per_cm3 = 2.5f;
    return m;
}

// Bare material has index 1 and its reflectance as seen; with a face (index above 1) it is that inside the
// face.
struct Plain {
    const char* name;
    Kind kind;
    ShortCurve reflectance;
    float index, roughness, matte_deg;
    float thickness_mm, tone_spread;
    Grain grain;
    float density;
};

// clang-format off
constexpr Plain kPlain[] = {
    {"slate", Kind::stone, {.205f, .225f, .222f, .21f, .20f, .195f, .19f},
     1.5f, .45f, 0, 8, .12f, {.12f, 3, 5}, 2.75f},
    {"green-slate", Kind::stone, {.17f, .20f, .25f, .275f, .245f, .215f, .21f},
     1.5f, .45f, 0, 8, .12f, {.12f, 3, 5}, 2.75f},
    {"slag", Kind::slag, {.074f, .080f, .082f, .080f, .076f, .073f, .072f},
     1, 0, 28, 14, .18f, {.25f, 5, 1}, 2.44f},
    {"pumice", Kind::stone, {.37f, .43f, .475f, .51f, .53f, .545f, .55f},
     1, 0, 35, 12, .08f, {.12f, 2, 1}, .64f},
    {"scoria", Kind::stone, {.034f, .040f, .050f, .074f, .128f, .152f, .160f},
     1, 0, 35, 12, .15f, {.20f, 3, 1}, 1.3f},
    {"basalt", Kind::stone, {.084f, .089f, .091f, .091f, .089f, .087f, .086f},
     1, 0, 25, 10, .10f, {.10f, 1.2f, 1}, 2.9f},
    {"quartz-pebble", Kind::stone, {.76f, .82f, .855f, .875f, .885f, .89f, .89f},
     1.54f, .32f, 0, 12, .25f, {.06f, 6, 1.5f}, 2.65f},
    {"river-stone", Kind::stone, {.35f, .40f, .445f, .485f, .51f, .525f, .53f},
     1.5f, .30f, 0, 12, .25f, {.10f, 2, 2}, 2.65f},
    {"limestone", Kind::stone, {.39f, .45f, .50f, .54f, .565f, .58f, .585f},
     1, 0, 25, 10, .08f, {.05f, 3, 2}, 2.5f},
    {"oak", Kind::timber, {.26f, .34f, .44f, .56f, .66f, .72f, .75f},
     1.5f, .35f, 0, 20, .06f, {.14f, 3, 12}, .75f},
    {"dark-oak", Kind::timber, {.055f, .060f, .070f, .090f, .12f, .15f, .18f},
     1.5f, .30f, 0, 20, .06f, {.18f, 3, 12}, .75f},
    {"floorboards", Kind::timber, {.22f, .29f, .38f, .49f, .58f, .64f, .67f},
     1.5f, .25f, 0, 20, .06f, {.14f, 6, 14}, .70f},
    {"gallery-white", Kind::paint, {.66f, .80f, .82f, .825f, .825f, .822f, .82f}, 1, 0, 15, 1, 0, {}, 1.4f},
    {"warm-grey", Kind::paint, {.32f, .37f, .39f, .402f, .412f, .418f, .42f}, 1, 0, 15, 1, 0, {}, 1.4f},
    {"deep-grey", Kind::paint, {.088f, .096f, .099f, .10f, .10f, .10f, .10f}, 1, 0, 15, 1, 0, {}, 1.4f},
    {"concrete", Kind::stone, {.23f, .27f, .29f, .305f, .31f, .315f, .315f},
     1, 0, 20, 100, 0, {.08f, 20, 1}, 2.3f},
    {"cement-board", Kind::cement, {.35f, .40f, .42f, .435f, .44f, .445f, .445f},
     1, 0, 20, 12, 0, {.04f, 4, 1}, 1.15f},
};
// clang-format on

Material plain(const Plain& p) {
    Material m;
    m.name = p.name;
    m.kind = p.kind;
    m.reflectance = bands_from_short(p.reflectance);
    m.index = p.index;
    m.roughness = p.roughness;
    m.matte_deg = p.matte_deg;
    m.thickness_mm = p.thickness_mm;
    m.tone_spread = p.tone_spread;
    m.grain = p.grain;
    m.stretch = std::string_view(p.name).ends_with("slate") ? kRiven : 1;
    m.density_g_per_cm3 = p.density;
    if (p.kind == Kind::slag) {
        m.glassy_share = 0.35f;
        m.glassy_index = 1.62f;
        m.glassy_roughness = 0.08f;
        m.glassy_patch_mm = 6;
    }
    return m;
}

const std::vector<Material>& table() {
    static const std::vector<Material> all = [] {
        std::vector<Material> r;
        for (const ClearGlass& g : kClearGlasses) r.push_back(clear_glass(g));
        for (const OpaqueGlass& g : kOpaqueGlasses) r.push_back(opaque_glass(g));
        for (const Plain& p : kPlain) r.push_back(plain(p));
        return r;
    }();
    return all;
}

}  // namespace

const Material* find_stock(std::string_view name) {
    const auto found =
        std::find_if(table().begin(), table().end(), [&](const Material& m) { return m.name == name; });
    return found == table().end() ? nullptr : &*found;
}

std::vector<std::string> stock_names() {
    std::vector<std::string> r;
    for (const Material& m : table()) r.push_back(m.name);
    return r;
}

}  // namespace rakelight
