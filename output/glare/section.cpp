#include "output/glare/section.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/glare/moving/move_section.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

std::vector<std::string> field_names(const std::vector<Field>& fields) {
    std::vector<std::string> names;
    for (const Field& field : fields) names.push_back(field.name);
    return names;
}

void read_contrast(Section& in, GlareSection& section, const std::vector<Field>& fields) {
    const YamlValue* list = in.find("contrast");
    if (!list) return;
    const std::string key = in.path("contrast");
    if (list->shape != YamlValue::Shape::list || list->items.empty()) {
        in.problem("contrast", "found " + found(*list) + ", expected a list of pairs of fields");
        return;
    }
    const std::vector<std::string> known = field_names(fields);
    for (const YamlValue& pair : list->items) {
        if (pair.shape != YamlValue::Shape::list || pair.items.size() != 2) {
            in.problems().add(pair, key, "found " + found(pair) + ", expected two fields, as in [foam, sea]");
            continue;
        }
        bool good = true;
        for (const YamlValue& name : pair.items)
            if (std::find(known.begin(), known.end(), name.text) == known.end()) {
                in.problems().add(name, key,
                                  "found " + found(name) + ", expected the name of a field" +
                                      did_you_mean(name.text, known));
                good = false;
            }
        if (good && pair.items[0].text == pair.items[1].text) {
            in.problems().add(pair, key, "found one field twice, expected two");
            good = false;
        }
        if (good) section.contrast.emplace_back(pair.items[0].text, pair.items[1].text);
    }
}

void read_limits(Section& in, GlareLimits& limits) {
    in.set(limits.bright_ratio, "bright ratio");
    if (in.set(limits.dazzling_ratio, "dazzling ratio") && limits.dazzling_ratio < limits.bright_ratio)
        in.problem("dazzling ratio",
                   fmt::format("found {:g} times, expected at least the {:g} of bright ratio",
                               limits.dazzling_ratio, limits.bright_ratio));
    in.set(limits.patch_ratio, "patch ratio");
    in.set(limits.bright_spot_deg, "bright spot");
    in.set(limits.veil_ratio, "veil ratio");
    in.set(limits.surround, "surround");
    in.set(limits.least_cd_per_m2, "least");
    in.set(limits.rating, "rating");
    glm::dvec2 sparkles{limits.least_sparkles_per_m2, limits.most_sparkles_per_m2};
    if (!in.set(sparkles, "sparkles")) return;
    if (sparkles.x > sparkles.y)
        in.problem("sparkles", fmt::format("found {:g} to {:g}, expected the smaller number first",
                                           sparkles.x, sparkles.y));
    limits.least_sparkles_per_m2 = sparkles.x;
    limits.most_sparkles_per_m2 = sparkles.y;
}

std::function<void(Section&)> reader(const Layout& layout, GlareSection& section) {
    return [&](Section& in) {
        read_limits(in, section.limits);
        read_contrast(in, section, layout.fields);
        read_move(in, section.move, layout);
    };
}

}  // namespace

GlareSection read_glare_section(const Layout& layout) {
    GlareSection section;
    read_deliverable(layout, "glare", reader(layout, section));
    return section;
}

}  // namespace rakelight
