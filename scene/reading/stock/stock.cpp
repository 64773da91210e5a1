#include "scene/reading/stock/stock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "materials/optics/fresnel.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/kubelka_munk.h"
#include "materials/photograph/glint.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"
#include "scene/reading/stock/coating.h"
#include "scene/reading/stock/cost.h"
#include "scene/reading/stock/glass.h"
#include "scene/reading/stock/looks.h"
#include "scene/reading/stock/markings.h"
#include "scene/reading/stock/recipe.h"
#include "scene/reading/stock/spectrum.h"
#include "scene/reading/stock/treatment.h"
#include "scene/room/defaults.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr std::string_view kTransmittanceKey = "transmittance at ";

/// The base of an entry: another material, or the usual values of a kind.
bool read_base(Section& in, Material& material, const Shelf& shelf) {
    const bool like = in.find("like") != nullptr, kind = in.find("kind") != nullptr;
    if (like == kind) {
        in.problem("", like ? "found both like and kind, expected one of them"
                            : "found neither like nor kind, expected one of them");
        return false;
    }
    if (like) {
        std::string name;
        if (!in.set(name, "like")) return false;
        const Material* base = shelf.find(name);
        if (!base) {
            in.problem("like", "found " + quoted(name) + ", expected the name of a " + shelf.noun +
                                   did_you_mean(name, shelf.names));
            return false;
        }
        material = *base;
        material.have_pieces = -1;  // a treated piece is no longer one of those
        return true;
    }
    size_t word = 0;
    if (!in.set_word(word, "kind")) return false;
    material = usual_material(shelf.kinds[word]);
    return true;
}

/// As scattering per millimetre, one for all wavelengths or a table of them, or as the share of light that a
/// sheet of 3 mm throws back over black, its colour left out: R = S d / (1 + S d) (Kubelka and Munk 1931,
/// without absorption).
bool set_milkiness(Section& in, SampledSpectrum& per_mm) {
    constexpr double kSheet_mm = 3;
    const YamlValue* value = in.find("milkiness");
    if (!value) return false;
    if (value->shape == YamlValue::Shape::list) {
        const auto bands = read_spectrum(*value, in.path("milkiness"), in.range("milkiness"), in.problems());
        if (bands) per_mm = *bands;
        return bands.has_value();
    }
    double number = 0;
    if (value->text.ends_with('%')) {
        if (!read_number(number, *value, in.path("milkiness"), Quantity::share, {0, 0.98}, in.problems()))
            return false;
        number = number / (1 - number) / kSheet_mm;
    } else if (!in.set(number, "milkiness")) {
        return false;
    }
    per_mm = SampledSpectrum(static_cast<float>(number));
    return true;
}

void read_colour(Section& in, Material& material, bool must_have_colour) {
    const YamlValue* reflectance = in.find("reflectance");
    const YamlMember* transmittance = in.find_like("transmittance at 3 mm");
    if (reflectance && transmittance) {
        in.problem("reflectance", "found reflectance and transmittance, expected one of them");
    } else if (reflectance) {
        if (const auto bands =
                read_spectrum(*reflectance, in.path("reflectance"), in.range("reflectance"), in.problems()))
            material.reflectance = *bands;
        material.opaque = true;
    } else if (transmittance) {
        const std::string key = in.path(transmittance->key.text);
        double thickness_mm = 0;
        const Range thick_mm = in.range("thickness");
        const auto length =
            read_measure(transmittance->key.text.substr(kTransmittanceKey.size()), Quantity::length_mm);
        if (!length.ok() || length.value < thick_mm.low || length.value > thick_mm.high)
            in.problems().add(transmittance->key, key,
                              "found " + quoted(transmittance->key.text) +
                                  ", expected \"transmittance at\" and a thickness of 0.5 to 100 mm");
        else
            thickness_mm = length.value;
        const auto bands =
            read_spectrum(transmittance->value, key, in.range(transmittance->key.text), in.problems());
        if (bands && thickness_mm > 0)
            material.absorption_per_mm = map(*bands, [&](float t) {
                // -log(1) is -0, which would print as such.
                return static_cast<float>(std::max(0.0, -std::log(static_cast<double>(t)) / thickness_mm));
            });
        if (material.opaque) material.scattering_per_mm = SampledSpectrum(0);
        material.opaque = false;
    } else if (must_have_colour) {
        in.problem("", "found no colour, expected reflectance or \"transmittance at 3 mm\"");
    }
    SampledSpectrum milkiness_per_mm;
    if (set_milkiness(in, milkiness_per_mm)) {
        if (material.opaque)
            in.problem("milkiness", "found milkiness of an opaque material, expected a translucent one");
        material.scattering_per_mm = milkiness_per_mm;
    }
}

void read_uncertainty(Section& in, const std::string& name, Shelf& shelf) {
    const YamlValue* value = in.find("uncertainty");
    if (!value) return;
    if (const auto bands =
            read_spectrum(*value, in.path("uncertainty"), in.range("uncertainty"), in.problems()))
        shelf.uncertain.emplace_back(name, *bands);
}

bool reads_as_day(std::string_view text) {
    constexpr std::string_view kDay = "0000-00-00";
    return std::equal(text.begin(), text.end(), kDay.begin(), kDay.end(),
                      [](char c, char pattern) { return pattern == '-' ? c == '-' : c >= '0' && c <= '9'; });
}

/// The roughness of a face by how it shows a lamp.
void read_glint(Section& in, Material& m) {
    Glint g;
    bool good = true;
    const bool given = for_mapping(in, "glint", [&](Section& glint) {
        for (const auto& [key, target] : {std::pair{"width", &g.width_mm},
                                          {"lamp", &g.lamp_mm},
                                          {"lamp distance", &g.lamp_distance_mm},
                                          {"camera distance", &g.camera_distance_mm}}) {
            glint.require(key, "a length");
            good = glint.set(*target, key) && good;
        }
    });
    if (!given || !good) return;
    if (in.has("roughness")) {
        in.problem("glint", "found both glint and roughness, expected one of them");
    } else if (!(m.index > 1)) {
        in.problem("glint", "found a glint of a face without gloss, expected an index above 1");
    } else {
        try {
            m.roughness = static_cast<float>(roughness_of(g));
        } catch (const std::invalid_argument& error) {
            in.problem("glint", fmt::format("found that {}", error.what()));
        }
    }
}

void read_finish(Section& in, Material& m) {
    in.set(m.thickness_mm, "thickness");
    in.set(m.tone_spread, "tone spread");
    in.set(m.density_g_per_cm3, "density");
    read_cost(in, m.cost);
    in.set(m.have_pieces, "on hand");
    in.set(m.index, "index");
    in.set(m.roughness, "roughness");
    read_glint(in, m);
    in.set(m.matte_deg, "matte");
    in.set(m.stretch, "sheen stretch");
    in.set(m.ripple_deg, "ripple");
    in.set(m.ripple_size_mm, "ripple size");
    in.set(m.glassy_share, "glassy share");
    in.set(m.glassy_index, "glassy index");
    in.set(m.glassy_roughness, "glassy roughness");
    in.set(m.glassy_patch_mm, "glassy spot");
    for_mapping(in, "texture", [&](Section& grain) {
        grain.set(m.grain.contrast, "contrast");
        grain.set(m.grain.size_mm, "size");
        grain.set(m.grain.band_ratio, "stretch");
    });
    size_t word = static_cast<size_t>(m.provenance);
    if (in.set_word(word, "provenance")) m.provenance = static_cast<Provenance>(word);
    if (in.set(m.measured_on, "measured on") && !reads_as_day(m.measured_on))
        in.problem("measured on", "found " + quoted(m.measured_on) + ", expected a day, as in 2026-11-27");
    in.set(std::span(m.colour_range), "colour range", Quantity::plain, {0, 100});
}

/// A reflectance is written as it is seen, first-surface light left out; a material keeps the one inside its
/// face.
void take_inside_face(Section& in, Material& m) {
    const double k1 = diffuse_reflectance_outside(m.index), k2 = diffuse_reflectance_inside(m.index);
    if (max_value(m.reflectance) > 1 - k1) {
        in.problem("reflectance",
                   fmt::format("found {:.3g} % under a face of index {:.3g}, expected at most {:.3g} %",
                               100 * max_value(m.reflectance), m.index, 100 * (1 - k1)));
        return;
    }
    m.reflectance = map(m.reflectance, [&](float seen) {
        return static_cast<float>(std::min(1.0, inside_interface(seen, k1, k2)));
    });
}

/// A tint by recipe; its thickness is read with its finish.
void read_mixture(Section& in, Material& m, Shelf& shelf) {
    std::optional<Recipe> recipe = read_recipe(in, shelf.pigments, shelf.warnings);
    if (recipe) m = to_material(*recipe, "");
    read_finish(in, m);
    if (!recipe) return;
    recipe->thickness_mm = m.thickness_mm;
    m.reflectance = inner_reflectance(*recipe);
}

// A shade of a ladder, unless its name is taken.
void keep(Material shade, const YamlMember& entry, const std::string& path, Shelf& shelf,
          ProblemList& problems) {
    if (shelf.find(shade.name)) {
        problems.add(entry.key, path,
                     "found a ladder with " + quoted(shade.name) + ", a name in use, expected another");
        return;
    }
    shelf.names.push_back(shade.name);
    shelf.own.push_back(std::move(shade));
}

// What shows within it and lies on it.
void read_face(Section& in, Material& material, const ColourShelf& colours, bool of_stock) {
    if (!of_stock) return read_spread(in, material.markings);
    read_markings(in, material, colours);
    read_coating(in, material);
}

void read_entry(const YamlMember& entry, const Section& entries, Shelf& shelf, ProblemList& problems) {
    const std::string path = entries.path(entry.key.text);
    const std::string& name = entry.key.text;
    if (shelf.built_in(name))
        problems.add(entry.key, path, "found the name of a built-in " + shelf.noun + ", expected a new name");
    Section in(entry.value, entries, entry.key.text);
    Material material;
    const bool gilding = shelf.noun == "material";
    const GlassShelf glasses{[&](std::string_view wanted) { return shelf.find(wanted); }, shelf.names};
    const ColourShelf colours{glasses.find, shelf.names};
    if (in.find("base")) {
        read_mixture(in, material, shelf);
        read_treatment(in, material, gilding);
        read_face(in, material, colours, gilding);
        in.finish();
    } else if (gilding && in.find("ladder")) {
        for (Material& shade : read_ladder(in, name, glasses))
            keep(std::move(shade), entry, path, shelf, problems);
        in.finish();
        return;
    } else if (gilding && in.find("stack")) {
        if (std::optional<Material> fused = read_stack(in, glasses)) material = std::move(*fused);
        read_finish(in, material);
        read_treatment(in, material, gilding);
        read_face(in, material, colours, gilding);
        in.finish();
    } else if (entry.value.shape == YamlValue::Shape::mapping) {
        const bool based = read_base(in, material, shelf);
        read_colour(in, material, based && in.has("kind"));
        read_finish(in, material);
        if (in.has("reflectance") && material.index > 1) take_inside_face(in, material);
        read_looks(in, material, shelf.files);
        read_uncertainty(in, name, shelf);
        read_treatment(in, material, gilding);
        read_face(in, material, colours, gilding);
        in.finish();
    }
    // Kept even when bad, so that its uses are not reported as well.
    material.name = name;
    shelf.own.push_back(std::move(material));
    shelf.names.push_back(name);
}

}  // namespace

const Material* Shelf::find(std::string_view name) const {
    const auto at = std::find_if(own.begin(), own.end(), [&](const Material& m) { return m.name == name; });
    return at != own.end() ? &*at : built_in(name);
}

SampledSpectrum Shelf::uncertainty(std::string_view name) const {
    for (const auto& [entry, bands] : uncertain)
        if (entry == name) return bands;
    return {};
}

Shelf stock_shelf() {
    return {"material",
            {Kind::glass, Kind::stone, Kind::slag, Kind::cement, Kind::epoxy, Kind::timber, Kind::paint},
            find_stock,
            stock_names(),
            {}};
}

Shelf tint_shelf() {
    return {"tint", {Kind::cement, Kind::epoxy}, find_tint, tint_names(), {}};
}

void read_shelf(Section& layout, std::string_view key, Shelf& shelf) {
    const YamlValue* entries = layout.find(key);
    if (!entries) return;
    const Section section(*entries, layout, key);  // reports a wrong shape and duplicates
    if (entries->members.size() > kMostItems) {
        layout.problem(
            key, fmt::format("found {} entries, expected at most {}", entries->members.size(), kMostItems));
        return;
    }
    for (const YamlMember& entry : entries->members) read_entry(entry, section, shelf, layout.problems());
}

std::optional<std::uint32_t> use_material(const YamlValue& at, const std::string& key,
                                          const std::string& name, const Shelf& shelf,
                                          std::vector<Material>& used, ProblemList& problems) {
    const Material* material = shelf.find(name);
    if (!material) {
        problems.add(at, key,
                     "found " + quoted(name) + ", expected the name of a " + shelf.noun +
                         did_you_mean(name, shelf.names));
        return std::nullopt;
    }
    const auto it = std::find_if(used.begin(), used.end(), [&](const Material& m) { return m.name == name; });
    const auto index = static_cast<std::uint32_t>(it - used.begin());
    if (it == used.end()) used.push_back(*material);
    return index;
}

std::optional<std::uint32_t> set_material(Section& section, std::string_view key, std::string_view usual,
                                          const Shelf& shelf, std::vector<Material>& used) {
    std::string name(usual);
    const YamlValue* value = section.find(key);
    if (value && !section.set(name, key)) return std::nullopt;
    return use_material(value ? *value : section.value(), section.path(key), name, shelf, used,
                        section.problems());
}

}  // namespace rakelight
