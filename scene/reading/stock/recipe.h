// Tints by recipe, and the artist's own pigments, as a layout file writes them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "materials/stock/recipe.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `pigments:`, the artist's own, each from a file of two drawdowns in one base (measured_pigment.h):
/// `my-blue: {curves: blue.csv, base: white-cement, weak: 1 %, strong: 8 %}`; the columns of the file are
/// wavelength, weak, strong, and its name is relative to the layout file. Or from two entries of the stock,
/// such as samples read from photographs: `{weak from: weak, strong from: strong, ..}` in place of the
/// curves. The files are added to `sources`.
std::vector<Pigment> read_pigments(Section& layout, std::vector<std::string>& sources);

/// The pigment of that name among `own` and the built-in ones, or null.
const Pigment* find_pigment(std::string_view name, const std::vector<Pigment>& own);

/// "found X, expected one of ...", and the nearest.
std::string expected_pigment(std::string_view name, const std::vector<Pigment>& own);

/// Reads `base`, `pigments`, `cement share` and `over` of a tint; `thickness` is for the caller. Shares are
/// of the cement, or of resin with hardener. What the trade would object to goes to `warnings`, one a line,
/// with its place. \return none when anything was wrong.
std::optional<Recipe> read_recipe(Section& in, const std::vector<Pigment>& own,
                                  std::vector<std::string>& warnings);

}  // namespace rakelight
