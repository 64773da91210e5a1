#include "output/cut/json.h"

#include "scene/model/layout.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kCutVersion = 1;

Json pair(const glm::dvec2& v) {
    return {v.x, v.y};
}

Json shape_json(const Layout& layout, const CutShape& shape, const glm::dvec2& shift_mm) {
    const Box box = bounds(shape.path);
    return {{"name", shape.name},          {"field", layout.fields[shape.field].name},
            {"number", shape.number},      {"at_mm", pair(box.low + shift_mm)},
            {"size_mm", pair(box.size())}, {"area_mm2", area_mm2(shape.piece)},
            {"cut_mm", shape.length_mm},   {"left_in_corners_mm2", shape.corners_mm2}};
}

}  // namespace

std::string cut_json(const Layout& layout, const CutPlan& plan, const MadeFrom& from,
                     const std::vector<std::string>& files) {
    Json slabs = Json::array();
    double all_mm = 0;
    for (std::size_t s = 0; s < plan.slabs.size(); ++s) {
        const CutSlab& slab = plan.slabs[s];
        Json shapes = Json::array();
        double length_mm = 0;
        for (const PlacedShape& placed : slab.shapes) {
            shapes.push_back(shape_json(layout, plan.shapes[placed.shape], placed.shift_mm));
            length_mm += plan.shapes[placed.shape].length_mm;
        }
        all_mm += length_mm;
        slabs.push_back({{"name", plan.slab_names[s]},
                         {"material", layout.stock[slab.material].name},
                         {"thickness_mm", slab.thickness_mm},
                         {"cut_mm", length_mm},
                         {"shapes", shapes}});
    }
    const Json body{{"note", "paths are the middle of the kerf, half of it outside each piece"},
                    {"panel", layout.panel.name},
                    {"kerf_mm", plan.kerf_mm},
                    {"apart_mm", plan.apart_mm},
                    {"slab_mm", pair(plan.slab_mm)},
                    {"cut_mm", all_mm},
                    {"slabs", slabs},
                    {"files", files}};
    return json_text(json_head("cut", kCutVersion, from), body);
}

}  // namespace rakelight
