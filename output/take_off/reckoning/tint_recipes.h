// What is weighed out for the tints of a layout: from the recipe in its file, or, for a tint that is only a
// colour, from the recipe that comes nearest to it.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "materials/stock/recipe.h"

namespace rakelight {

struct Sources;

struct TintRecipe {
    Recipe recipe;
    bool of_the_layout = true;  ///< else the nearest that was found
    double delta_e = 0;         ///< CIEDE2000 that a found one is off under D65
};

/// Recipes of the file's own tints by name: those with a `base`, and those `like` one that has it.
std::map<std::string, Recipe> recipes_in(const Sources& sources);

/// A recipe for every tint of the layout. A cement is looked for in white cement and in grey, an epoxy in
/// clear or filled epoxy by its density, among pigments that stand the base; three at most, and no more than
/// it takes to come within 1. `pause` is called now and then; it may
/// throw to stop.
std::map<std::string, TintRecipe> tint_recipes(
    const std::vector<Material>& tints, const std::map<std::string, Recipe>& of_file,
    const std::function<void()>& pause = [] {});

}  // namespace rakelight
