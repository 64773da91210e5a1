#include "scene/reading/stock/recipe.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <stdexcept>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"
#include "materials/stock/measured_pigment.h"
#include "scene/reading/stock/spectrum.h"
#include "scene/reading/stock/stock.h"
#include "scene/text/curve_file.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr size_t kMostPigments = 20;

const Base* read_base(Section& in) {
    size_t word = 0;
    if (!in.set_word(word, "base")) return nullptr;
    return find_base(base_names()[word]);
}

/// Adds what a file of curves has wrong to what the layout has.
std::vector<SampledSpectrum> read_drawdowns(Section& in, const std::string& file,
                                            std::vector<std::string>& sources) {
    const auto path = in.problems().beside(*in.find("curves"), file);
    sources.push_back(path);
    try {
        return read_curves(path, 2);
    } catch (const LayoutError& error) {
        for (const Problem& p : error.problems()) in.problems().add(p.place, in.path("curves"), p.text);
        return {};
    }
}

/// The stock as it stands before the pigments; what is wrong with it is reported where it is read.
Shelf stock_before(Section& layout) {
    Shelf shelf = stock_shelf();
    ProblemList unheard("");
    Section again(layout.value(), "", layout.table(), unheard);
    read_shelf(again, "stock", shelf);
    return shelf;
}

/// A drawdown that is an entry of the stock, as its key `reflectance` says it.
bool set_drawdown(Section& in, const char* key, const Shelf& stock, Drawdown& drawdown) {
    std::string name;
    if (!in.require(key, "the name of a material of the stock") || !in.set(name, key)) return false;
    const Material* m = stock.find(name);
    if (!m || !m->opaque) {
        in.problem(key,
                   m ? fmt::format("found {}, which is translucent, expected a drawdown that hides what is "
                                   "behind it",
                                   rakelight::quoted(name))
                     : fmt::format("found {}, expected the name of a material of the stock{}",
                                   rakelight::quoted(name), did_you_mean(name, stock.names)));
        return false;
    }
    const auto index = static_cast<double>(m->index);
    const double k1 = diffuse_reflectance_outside(index), k2 = diffuse_reflectance_inside(index);
    drawdown.seen = map(m->reflectance, [&](float inner) {
        return static_cast<float>(index > 1 ? through_interface(static_cast<double>(inner), k1, k2)
                                            : static_cast<double>(inner));
    });
    drawdown.error = stock.uncertainty(name);
    return true;
}

/// Both drawdowns, from a file of curves or from the stock.
bool read_seen(Section& in, const std::function<const Shelf&()>& stock, std::vector<std::string>& sources,
               Drawdown& tint, Drawdown& masstone) {
    const bool from_stock = in.has("weak from") || in.has("strong from");
    if (from_stock && in.has("curves")) {
        in.problem("curves", "found both curves and weak from or strong from, expected one of them");
        in.find("weak from"), in.find("strong from"), in.find("curves");
        return false;
    }
    if (from_stock) {
        const bool weak = set_drawdown(in, "weak from", stock(), tint);
        return set_drawdown(in, "strong from", stock(), masstone) && weak;
    }
    std::string file;
    in.require("curves", "a file of two curves: wavelength, weak drawdown, strong drawdown");
    if (!in.set(file, "curves")) return false;
    const std::vector<SampledSpectrum> curves = read_drawdowns(in, file, sources);
    if (curves.empty()) return false;
    tint.seen = curves[0];
    masstone.seen = curves[1];
    return true;
}

std::optional<Pigment> read_pigment(Section& in, const std::string& name,
                                    const std::function<const Shelf&()>& stock,
                                    std::vector<std::string>& sources) {
    Drawdown tint, masstone;
    Pigment usual;
    in.require("base", "the base the drawdowns were made in");
    in.require("weak", "the share of pigment in the weaker drawdown");
    in.require("strong", "the share of pigment in the stronger drawdown");
    const bool has_seen = read_seen(in, stock, sources, tint, masstone);
    const Base* base = in.has("base") ? read_base(in) : nullptr;
    const bool has_tint = in.set(tint.share, "weak");
    const bool has_shares = in.set(masstone.share, "strong") && has_tint;
    in.set(usual.density_g_per_cm3, "density");
    in.set(usual.cement_limit, "most in cement");
    in.set(usual.epoxy_limit, "most in epoxy");
    const bool limited = in.has("most in cement") || in.has("most in epoxy");
    in.finish();
    if (!has_seen || !base || !has_shares) return std::nullopt;
    try {
        Pigment p = measured_pigment(name, *base, tint, masstone);
        p.usual_name = name;
        p.density_g_per_cm3 = usual.density_g_per_cm3;
        p.cement_limit = usual.cement_limit;
        p.epoxy_limit = usual.epoxy_limit;
        if (limited) p.cement_limit_source = p.epoxy_limit_source = "as the layout file says";
        return p;
    } catch (const std::invalid_argument& error) {
        in.problem(in.has("curves") ? "curves" : "weak from",
                   fmt::format("found two curves that cannot be of one pigment: {}", error.what()));
        return std::nullopt;
    }
}

std::vector<std::string> all_names(const std::vector<Pigment>& own) {
    std::vector<std::string> names = pigment_names();
    for (const Pigment& p : own) names.push_back(p.name);
    return names;
}

bool read_doses(Section& in, Recipe& recipe, const std::vector<Pigment>& own) {
    const YamlValue* value = in.find("pigments");
    if (!value) return true;
    if (value->members.size() > kMostPigments) {
        in.problem("pigments", fmt::format("found {} pigments, expected at most {}", value->members.size(),
                                           kMostPigments));
        return false;
    }
    Section doses(*value, in, "pigments");  // reports a wrong shape and duplicates
    bool good = value->shape == YamlValue::Shape::mapping;
    for (const YamlMember& member : value->members) {
        const std::string& name = member.key.text;
        const Pigment* pigment = find_pigment(name, own);
        if (!pigment) in.problems().add(member.key, doses.path(name), expected_pigment(name, own));
        Dose dose;
        good &= doses.set(dose.share, name) && pigment;
        if (!pigment) continue;
        dose.pigment = *pigment;
        recipe.doses.push_back(std::move(dose));
    }
    return good;
}

}  // namespace

const Pigment* find_pigment(std::string_view name, const std::vector<Pigment>& own) {
    const auto found = std::find_if(own.begin(), own.end(), [&](const Pigment& p) { return p.name == name; });
    return found == own.end() ? find_pigment(name) : &*found;
}

std::string expected_pigment(std::string_view name, const std::vector<Pigment>& own) {
    const std::vector<std::string> names = all_names(own);
    return fmt::format("found {}, expected one of {}{}", rakelight::quoted(name), fmt::join(names, ", "),
                       did_you_mean(name, names));
}

std::vector<Pigment> read_pigments(Section& layout, std::vector<std::string>& sources) {
    std::vector<Pigment> own;
    const YamlValue* entries = layout.find("pigments");
    if (!entries) return own;
    Section section(*entries, layout, "pigments");
    if (entries->members.size() > kMostItems) {
        layout.problem("pigments", fmt::format("found {} entries, expected at most {}",
                                               entries->members.size(), kMostItems));
        return own;
    }
    std::optional<Shelf> stock;
    const auto shelf = [&]() -> const Shelf& {
        if (!stock) stock = stock_before(layout);
        return *stock;
    };
    for (const YamlMember& entry : entries->members) {
        const std::string& name = entry.key.text;
        Section in(entry.value, section, name);
        if (find_pigment(name))
            layout.problems().add(entry.key, section.path(name),
                                  "found the name of a built-in pigment, expected a new name");
        if (entry.value.shape != YamlValue::Shape::mapping) continue;
        auto pigment = read_pigment(in, name, shelf, sources);
        // Kept even when bad, so that its uses are not reported as well.
        own.push_back(pigment ? std::move(*pigment) : Pigment{.name = name});
    }
    return own;
}

std::optional<Recipe> read_recipe(Section& in, const std::vector<Pigment>& own,
                                  std::vector<std::string>& warnings) {
    Recipe recipe;
    const Base* base = read_base(in);
    if (base) recipe.base = *base;
    recipe.thickness_mm = recipe.base.thickness_mm;
    for (const char* other : {"like", "kind", "reflectance", "looks"})
        if (in.find(other)) {
            in.problem(other, fmt::format("found base and {}, expected one of them", other));
            base = nullptr;
        }
    if (in.set(recipe.base.binder_share, "cement share") && recipe.base.kind != Kind::cement)
        in.problem("cement share",
                   "found a share of cement in " + recipe.base.name + ", expected it with a cement");
    if (const YamlValue* over = in.find("over"))
        if (const auto behind = read_spectrum(*over, in.path("over"), in.range("over"), in.problems()))
            recipe.behind = *behind;
    if (!read_doses(in, recipe, own) || !base) return std::nullopt;
    try {
        check_recipe(recipe);
    } catch (const std::invalid_argument& error) {
        in.problem("pigments", fmt::format("found that {}", error.what()));
        return std::nullopt;
    }
    for (const std::string& text : recipe_warnings(recipe))
        warnings.push_back(to_string({in.place(), in.path(""), text}));
    return recipe;
}

}  // namespace rakelight
