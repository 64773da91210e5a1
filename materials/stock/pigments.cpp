#include "materials/stock/pigments.h"

#include <algorithm>

#include "materials/colour/short_curve.h"

namespace rakelight {
namespace {

struct Row {
    const char* name;
    const char* usual_name;
    ShortCurve absorption, scattering;  // m2/g, 400 to 700 nm every 50; invented
    double density;
    double cement_limit, epoxy_limit;
    const char* cement_warning;
    const char* dust_warning;
};

constexpr const char* kChromium = "chromium(III): keep the dust out of lungs, water and kiln";
constexpr const char* kManganese = "manganese: its dust harms the nerves";

// Saturation of the iron oxides in cement: makers' practice, no standard. Which pigments stand alkali:
// makers' practice, from memory.
// clang-format off
constexpr Row kRows[] = {
    {"PW6", "titanium white", {.030f, .0025f, .0016f, .0015f, .0015f, .0015f, .0015f},
     {.40f, .42f, .40f, .37f, .34f, .31f, .28f}, 4.1, .10, .06, "", "fine titanium dioxide dust is suspected of causing cancer"},
    {"PW4", "zinc white", {.012f, .0020f, .0015f, .0012f, .0012f, .0012f, .0012f},
     {.15f, .15f, .14f, .13f, .12f, .11f, .10f}, 5.6, .10, .06, "zinc oxide slows and spoils the set of cement", ""},
    {"PBk11", "iron oxide black", {3.0f, 3.0f, 2.95f, 2.9f, 2.8f, 2.7f, 2.6f},
     {.06f, .06f, .06f, .06f, .06f, .06f, .06f}, 4.8, .06, .06, "", ""},
    {"PBk7", "carbon black", {9.0f, 8.6f, 8.2f, 7.8f, 7.5f, 7.2f, 7.0f},
     {.03f, .03f, .03f, .025f, .025f, .025f, .025f}, 1.8, .03, .01, "carbon black floats, and is washed out of cement in time", "fine carbon dust is suspected of causing cancer"},
    {"PR101", "iron oxide red", {2.4f, 2.3f, 2.1f, 1.25f, .22f, .12f, .10f},
     {.05f, .05f, .06f, .10f, .22f, .25f, .24f}, 5.1, .08, .06, "", ""},
    {"PY42", "iron oxide yellow", {1.9f, 1.6f, .75f, .16f, .07f, .07f, .08f},
     {.05f, .06f, .10f, .14f, .15f, .14f, .13f}, 4.1, .09, .06, "", ""},
    {"PBr7", "umber", {2.3f, 2.1f, 1.7f, 1.2f, .75f, .55f, .45f},
     {.05f, .05f, .06f, .07f, .08f, .08f, .08f}, 3.8, .07, .06, "", kManganese},
    {"PB28", "cobalt blue", {.30f, .12f, .22f, .75f, .95f, .85f, .20f},
     {.12f, .13f, .11f, .07f, .06f, .07f, .12f}, 4.2, .10, .06, "", "cobalt: sensitises, suspected of causing cancer"},
    {"PB29", "ultramarine blue", {.45f, .22f, .65f, 1.8f, 2.6f, 1.9f, .50f},
     {.03f, .03f, .03f, .02f, .02f, .02f, .03f}, 2.35, .10, .06, "many grades of ultramarine fade in fresh cement: ask for an alkali-fast one", ""},
    {"PB27", "Prussian blue", {3.0f, 2.0f, 3.0f, 6.0f, 9.0f, 9.5f, 8.5f},
     {.02f, .02f, .02f, .02f, .02f, .02f, .02f}, 1.8, .10, .04, "Prussian blue turns brown in cement", ""},
    {"PG17", "chromium oxide green", {.90f, .75f, .38f, .22f, .50f, .62f, .45f},
     {.10f, .11f, .14f, .16f, .13f, .13f, .15f}, 5.2, .10, .06, "", kChromium},
    {"PG18", "viridian", {.75f, .55f, .16f, .28f, .95f, 1.05f, .55f},
     {.03f, .03f, .04f, .04f, .03f, .03f, .03f}, 3.3, .10, .06, "", kChromium},
    {"PG7", "phthalocyanine green", {5.0f, 3.5f, .60f, 1.6f, 7.0f, 8.0f, 5.5f},
     {.02f, .02f, .02f, .02f, .02f, .02f, .02f}, 2.1, .03, .03, "organic: prove it in a sample before trusting it in cement", ""},
    {"PV16", "manganese violet", {.55f, .60f, .95f, 1.10f, .75f, .30f, .15f},
     {.05f, .05f, .05f, .05f, .05f, .06f, .06f}, 2.8, .10, .06, "manganese violet is destroyed by the alkali of cement", kManganese},
};
// clang-format on

Pigment pigment(const Row& row) {
    Pigment p;
    p.name = row.name;
    p.usual_name = row.usual_name;
    p.absorption_m2_per_g = bands_from_short(row.absorption);
    p.scattering_m2_per_g = bands_from_short(row.scattering);
    p.density_g_per_cm3 = row.density;
    p.cement_limit = row.cement_limit;
    p.epoxy_limit = row.epoxy_limit;
    p.cement_limit_source =
        row.cement_limit < kCementTotalLimit ? "makers' practice, no standard" : "ASTM C979 and EN 12878";
    p.epoxy_limit_source = "common practice, no published source";
    p.cement_warning = row.cement_warning;
    p.dust_warning = row.dust_warning;
    return p;
}

}  // namespace

const std::vector<Pigment>& pigments() {
    static const std::vector<Pigment> all = [] {
        std::vector<Pigment> r;
        for (const Row& row : kRows) r.push_back(pigment(row));
        return r;
    }();
    return all;
}

const Pigment* find_pigment(std::string_view name) {
    const auto& all = pigments();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Pigment& p) { return p.name == name; });
    return found == all.end() ? nullptr : &*found;
}

std::vector<std::string> pigment_names() {
    std::vector<std::string> r;
    for (const Pigment& p : pigments()) r.push_back(p.name);
    return r;
}

}  // namespace rakelight
