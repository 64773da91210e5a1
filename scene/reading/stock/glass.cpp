#include "scene/reading/stock/glass.h"

#include "materials/stock/glass_stack.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr Range kStack_mm{0.5, 100};
constexpr std::size_t kMostSheets = 12;

// A glass that can go into the kiln.
const Material* read_glass(Section& in, std::string_view key, const GlassShelf& shelf) {
    if (!in.require(key, "the name of a glass")) return nullptr;
    std::string name;
    if (!in.set(name, key)) return nullptr;
    const Material* glass = shelf.find(name);
    if (!glass) {
        in.problem(key, "found " + quoted(name) + ", expected the name of a glass" +
                            did_you_mean(name, shelf.names));
    } else if (glass->kind != Kind::glass) {
        in.problem(key, "found " + quoted(name) + ", which is no glass, expected a glass");
        glass = nullptr;
    } else if (glass->leaf != Leaf::none || glass->haze > 0) {
        in.problem(key, "found " + quoted(name) + " with leaf or haze on it, expected a plain glass");
        glass = nullptr;
    }
    return glass;
}

}  // namespace

std::optional<Material> read_stack(Section& in, const GlassShelf& shelf) {
    bool good = true;
    for (const char* key : {"like", "kind", "thickness"})
        if (in.find(key)) {
            in.problem(key, std::string("found ") + key + " of a stack, expected its sheets to say");
            good = false;
        }
    std::vector<StackedSheet> sheets;
    double stacked_mm = 0;
    const std::size_t count = for_each_item(in, "stack", [&](Section& item) {
        StackedSheet sheet;
        sheet.glass = read_glass(item, "glass", shelf);
        const bool thick = item.require("thickness", "the thickness of the sheet") &&
                           item.set(sheet.thickness_mm, "thickness");
        good = good && sheet.glass && thick;
        stacked_mm += sheet.thickness_mm;
        sheets.push_back(sheet);
    });
    if (count == 0) {
        if (in.find("stack")->shape == YamlValue::Shape::list)
            in.problem("stack", "found an empty list, expected sheets, the face first");
        good = false;
    } else if (count > kMostSheets) {
        in.problem("stack", "found " + std::to_string(count) + " sheets, expected at most " +
                                std::to_string(kMostSheets));
        good = false;
    } else if (good && !(stacked_mm >= kStack_mm.low && stacked_mm <= kStack_mm.high)) {
        in.problem("stack", "found a stack thinner than 0.5 or thicker than 100 mm, expected one between");
        good = false;
    }
    std::size_t firing = 0;
    in.set_word(firing, "firing");
    if (!good) return std::nullopt;
    return fuse("", sheets, static_cast<Firing>(firing));
}

std::vector<Material> read_ladder(Section& in, const std::string& name, const GlassShelf& shelf) {
    const YamlValue* value = in.find("ladder");
    Section ladder(*value, in, "ladder");
    if (value->shape != YamlValue::Shape::mapping) return {};
    const Material* from = read_glass(ladder, "from", shelf);
    const Material* to = read_glass(ladder, "to", shelf);
    int steps = 5;
    const bool stepped = !ladder.has("steps") || ladder.set(steps, "steps");
    ladder.find("steps");
    ladder.finish();
    if (!from || !to || !stepped) return {};
    const auto layered = [](const Material& m) { return !m.sheets.empty() || m.backed; };
    if (layered(*from) || layered(*to)) {
        ladder.problem(layered(*from) ? "from" : "to",
                       "found a glass of several layers, expected one of a single layer");
        return {};
    }
    if (from->opaque != to->opaque) {
        ladder.problem("to", "found " + std::string(to->opaque ? "an opaque" : "a translucent") +
                                 " glass, expected a " + (from->opaque ? "opaque" : "translucent") +
                                 " one like the other end");
        return {};
    }
    return shade_ladder(name, *from, *to, steps);
}

}  // namespace rakelight
