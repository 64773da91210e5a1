// The materials and tints a layout may name: the built-in ones and those it defines itself.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "materials/optics/material.h"
#include "materials/stock/pigments.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Where names of materials are looked up.
struct Shelf {
    std::string noun;         ///< "material" or "tint", for messages
    std::vector<Kind> kinds;  ///< what a new entry may be made of
    std::function<const Material*(std::string_view)> built_in;
    std::vector<std::string> names;  ///< built-in and own, for suggestions
    std::vector<Material> own;
    std::vector<Pigment> pigments;                                   ///< the artist's own, for recipes
    std::vector<std::pair<std::string, SampledSpectrum>> uncertain;  ///< entries whose curve may be off
    std::vector<std::string> files;     ///< pictures that entries were read from, paths as opened
    std::vector<std::string> warnings;  ///< about recipes, one a line, with their places

    /// The material of that name, or null.
    const Material* find(std::string_view name) const;
    /// Standard deviation of its reflectance; 0 when it is not said.
    SampledSpectrum uncertainty(std::string_view name) const;
};

/// The built-in shelves, still without entries of the file.
Shelf stock_shelf();
Shelf tint_shelf();

/// Reads the mapping under `key` ("stock" or "tints") and puts its entries on the shelf. An entry is `like:`
/// an earlier or built-in one with changes, a recipe in a `base:` (recipe.h), or of a `kind:` with its
/// colour as reflectance or as the internal transmittance of a stated thickness: absorption = -ln(T) /
/// thickness (Bouguer-Lambert). Reflectance is that seen under diffuse light without the first-surface part;
/// under a glossy face it is taken inside by the correction of Saunderson (1942). `milkiness` is the
/// Kubelka-Munk scattering per millimetre, or in percent what a sheet of 3 mm throws back over black: 0
/// clear, 30 % opalescent, 80 % white. `looks` asks for a colour (looks.h).
void read_shelf(Section& layout, std::string_view key, Shelf& shelf);

/// Reports a name that is not on the shelf; otherwise adds the material to `used`, once. \return its index
/// there.
std::optional<std::uint32_t> use_material(const YamlValue& at, const std::string& key,
                                          const std::string& name, const Shelf& shelf,
                                          std::vector<Material>& used, ProblemList& problems);

/// Reads a material's name from a key, `usual` when the key is absent, and takes it from the shelf. \return
/// its index in `used`; none when the name is unknown, as reported.
std::optional<std::uint32_t> set_material(Section& section, std::string_view key, std::string_view usual,
                                          const Shelf& shelf, std::vector<Material>& used);

}  // namespace rakelight
