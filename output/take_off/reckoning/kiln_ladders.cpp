#include "output/take_off/reckoning/kiln_ladders.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "materials/stock/stock.h"
#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/text/layout_tree.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

namespace {

double density(const std::vector<Material>& stock, const std::string& name, double otherwise) {
    const auto own = std::ranges::find(stock, name, &Material::name);
    if (own != stock.end()) return static_cast<double>(own->density_g_per_cm3);
    const Material* known = find_stock(name);
    return known ? static_cast<double>(known->density_g_per_cm3) : otherwise;
}

void add_shades(std::map<std::string, LadderShade>& shades, Section& in, const std::string& name) {
    const YamlValue* value = in.find("ladder");
    Section ladder(*value, in, "ladder");
    LadderShade shade;
    int steps = 5;
    ladder.set(shade.from, "from");
    ladder.set(shade.to, "to");
    if (ladder.has("steps")) ladder.set(steps, "steps");
    for (int i = 0; i < steps; ++i) {
        shade.share = double(i) / (steps - 1);
        shades[fmt::format("{}-{}", name, i + 1)] = shade;
    }
}

}  // namespace

std::map<std::string, LadderShade> ladders_in(const Sources& sources) {
    ProblemList unused(sources.path);  // the layout was read before: what is wrong has been said
    Section file(sources.tree->root, "", keys::layout, unused);
    std::map<std::string, LadderShade> shades;
    const YamlValue* entries = file.find("stock");
    if (!entries || entries->shape != YamlValue::Shape::mapping) return shades;
    for (const YamlMember& entry : entries->members) {
        if (entry.value.shape != YamlValue::Shape::mapping) continue;
        Section in(entry.value, entry.key.text, keys::material, unused);
        std::string like;
        if (in.has("ladder"))
            add_shades(shades, in, entry.key.text);
        else if (!in.has("stack") && in.set(like, "like") && shades.contains(like))
            shades[entry.key.text] = shades.at(like);
    }
    return shades;
}

std::vector<Casting> castings(const std::vector<Material>& stock, std::vector<Purchase>& purchases,
                              const std::map<std::string, LadderShade>& ladders) {
    std::vector<Casting> out;
    for (Purchase& p : purchases) {
        const auto shade = ladders.find(stock[p.material].name);
        if (shade == ladders.end()) continue;
        const auto own = static_cast<double>(stock[p.material].density_g_per_cm3);
        Casting c{p.material, shade->second, p.bought_mm2};
        const double cm3 = p.bought_g / own;
        c.from_g = cm3 * (1 - c.shade.share) * density(stock, c.shade.from, own);
        c.to_g = cm3 * c.shade.share * density(stock, c.shade.to, own);
        p.cast = true;
        p.by_sheet = false;
        p.sheet_mm = glm::dvec2(0);
        p.bag_g = 0;
        p.packs = 0;
        const Cost& cost = stock[p.material].cost;
        p.cost = cost.amount * (cost.per == Cost::Per::kg ? p.bought_g / 1000 : p.bought_mm2 / 1e6);
        out.push_back(std::move(c));
    }
    return out;
}

int firings(const std::vector<Casting>& castings, const glm::dvec2& pane_mm) {
    double mm2 = 0;
    for (const Casting& c : castings) mm2 += c.cast_mm2;
    return static_cast<int>(std::ceil(mm2 / (pane_mm.x * pane_mm.y) - 1e-9));
}

}  // namespace rakelight
