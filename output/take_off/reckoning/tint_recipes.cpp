#include "output/take_off/reckoning/tint_recipes.h"

#include "materials/stock/face_on.h"
#include "materials/stock/match.h"
#include "scene/keys/keys.h"
#include "scene/reading/said_by_entries.h"
#include "scene/reading/stock/recipe.h"

namespace rakelight {

namespace {

constexpr double kNearEnough = 1;  // CIEDE2000: just noticeable
constexpr double kFilled_g_per_cm3 = 1.35;
constexpr double kFarBehind_mm = 50;  // so thick that nothing behind shows

TintRecipe nearest_recipe(const Material& tint, const std::function<void()>& pause) {
    InterfaceTables tables;
    TintRecipe best;
    best.of_the_layout = false;
    best.delta_e = 1e9;
    const bool cement = tint.kind != Kind::epoxy;
    const double density = static_cast<double>(tint.density_g_per_cm3);
    const std::vector<const char*> bases = cement ? std::vector{"white-cement", "grey-cement"}
                                           : density > kFilled_g_per_cm3 ? std::vector{"filled-epoxy"}
                                                                         : std::vector{"clear-epoxy"};
    for (const char* name : bases) {
        const Base* base = find_base(name);
        MatchRequest request;
        request.wanted.curve =
            face_on_reflectance(tint, static_cast<double>(tint.thickness_mm), SampledSpectrum(), 1, tables);
        request.base.base = *base;
        request.base.thickness_mm = kFarBehind_mm;
        for (const Pigment& pigment : pigments())
            if (!cement || pigment.cement_warning.empty()) request.pigments.push_back(pigment);
        request.pause = pause;
        // No more pigments than it takes: each is one more thing to weigh wrong.
        std::vector<Match> found;
        for (request.most_pigments = 1; request.most_pigments <= 3; ++request.most_pigments)
            if (found = match(request, 1); found.front().delta_e < kNearEnough) break;
        // The white base costs more: the grey one is taken where it does as well.
        constexpr double kAsGood = 0.5;
        if (found.front().delta_e < best.delta_e + (best.delta_e < 1e8 ? kAsGood : 0)) {
            best.recipe = found.front().recipe;
            if (!cement) best.recipe.base.weighed_g_per_cm3 = density;
            best.delta_e = found.front().delta_e;
        }
    }
    return best;
}

}  // namespace

std::map<std::string, Recipe> recipes_in(std::string_view text, const std::string& file_name) {
    const YamlValue document = parse_yaml(text, file_name);
    ProblemList unused(file_name);  // the layout was read before: what is wrong has been said
    Section file(document, "", keys::layout, unused);
    std::vector<std::string> sources, warnings;
    const std::vector<Pigment> own = read_pigments(file, sources);
    return said_by_entries<Recipe>(file, "tints", "base", "reflectance",
                                   [&](Section& in) { return read_recipe(in, own, warnings); });
}

std::map<std::string, TintRecipe> tint_recipes(const std::vector<Material>& tints,
                                               const std::map<std::string, Recipe>& of_file,
                                               const std::function<void()>& pause) {
    std::map<std::string, TintRecipe> out;
    for (const Material& tint : tints) {
        const auto own = of_file.find(tint.name);
        out[tint.name] =
            own != of_file.end() ? TintRecipe{own->second, true, 0} : nearest_recipe(tint, pause);
    }
    return out;
}

}  // namespace rakelight
