#include "materials/stock/tints.h"

#include <algorithm>

#include "materials/colour/short_curve.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

struct Tint {
    const char* name;
    ShortCurve reflectance;  // cured cement, 400 to 700 nm every 50
};

// clang-format off
constexpr Tint kTints[] = {
    {"white", {.64f, .75f, .785f, .80f, .805f, .805f, .80f}},
    {"ivory", {.44f, .55f, .64f, .69f, .715f, .72f, .72f}},
    {"pale-grey", {.47f, .52f, .54f, .55f, .55f, .55f, .55f}},
    {"mid-grey", {.25f, .275f, .285f, .29f, .29f, .29f, .29f}},
    {"charcoal", {.066f, .069f, .071f, .072f, .072f, .073f, .075f}},
    {"black", {.036f, .037f, .038f, .038f, .038f, .039f, .040f}},
    {"deep-blue", {.085f, .115f, .075f, .045f, .033f, .036f, .065f}},
    {"slate-blue", {.20f, .24f, .225f, .19f, .165f, .16f, .18f}},
    {"sea-green", {.12f, .17f, .245f, .25f, .185f, .14f, .15f}},
    {"moss", {.055f, .07f, .11f, .135f, .115f, .095f, .105f}},
    {"sand", {.26f, .33f, .42f, .49f, .535f, .555f, .56f}},
    {"ochre", {.10f, .13f, .21f, .34f, .44f, .47f, .48f}},
    {"terracotta", {.09f, .10f, .12f, .18f, .33f, .38f, .40f}},
    {"brown", {.055f, .062f, .078f, .105f, .145f, .17f, .185f}},
};
// clang-format on

Material cement(const Tint& tint) {
    Material m;
    m.name = tint.name;
    m.kind = Kind::cement;
    m.reflectance = bands_from_short(tint.reflectance);
    m.matte_deg = 30;
    m.thickness_mm = 5;
    m.grain = {.contrast = 0.07f, .size_mm = 0.7f, .band_ratio = 1};
    m.density_g_per_cm3 = 1.95f;
    return m;
}

// The pigment of the cement tint in resin: the same colour as seen under diffuse light, but for the sheen.
Material epoxy(const Tint& tint, const InterfaceTable& face) {
    Material m;
    m.name = std::string("epoxy-") + tint.name;
    m.kind = Kind::epoxy;
    m.index = face.index;
    m.roughness = face.slopes.alpha;
    const double k1 = face.mean_albedo, k2 = 1 - (1 - k1) / (face.index * face.index);
    m.reflectance = map(bands_from_short(tint.reflectance),
                        [&](float seen) { return static_cast<float>(inside_interface(seen, k1, k2)); });
    m.thickness_mm = 5;
    m.grain = {.contrast = 0.02f, .size_mm = 1.5f, .band_ratio = 1};
    m.density_g_per_cm3 = 1.15f;
    return m;
}

const std::vector<Material>& table() {
    static const std::vector<Material> all = [] {
        std::vector<Material> r;
        for (const Tint& t : kTints) r.push_back(cement(t));
        const InterfaceTable face = make_interface_table(1.54f, 0.25f);
        for (const Tint& t : kTints) r.push_back(epoxy(t, face));
        return r;
    }();
    return all;
}

}  // namespace

const Material* find_tint(std::string_view name) {
    const auto found =
        std::find_if(table().begin(), table().end(), [&](const Material& m) { return m.name == name; });
    return found == table().end() ? nullptr : &*found;
}

std::vector<std::string> tint_names() {
    std::vector<std::string> r;
    for (const Material& m : table()) r.push_back(m.name);
    return r;
}

}  // namespace rakelight
