#include "output/model/json.h"

#include <fmt/format.h>

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kModelVersion = 1;

const char* word_of(ModelNodeKind kind) {
    switch (kind) {
        case ModelNodeKind::field:
            return "field";
        case ModelNodeKind::stones:
            return "stones";
        case ModelNodeKind::joints:
            return "joints";
        case ModelNodeKind::board:
            return "board";
        case ModelNodeKind::frame:
            return "frame";
    }
    return "";
}

Json node_json(const ModelNode& node) {
    std::size_t triangles = 0;
    for (const ModelPart& part : node.parts) triangles += part.mesh.triangles.size();
    return {
        {"name", node.name}, {"kind", word_of(node.kind)}, {"pieces", node.count}, {"triangles", triangles}};
}

Json material_json(const ModelMaterial& material) {
    const PbrLook& look = material.look;
    return {{"name", material.name},
            {"srgb", fmt::format("#{:02x}{:02x}{:02x}", look.seen[0], look.seen[1], look.seen[2])},
            {"base_colour_linear", base_colour(look)},
            {"metallic", look.metallic},
            {"roughness", look.roughness},
            {"index", look.index},
            {"coated", look.coated}};
}

}  // namespace

std::string model_json(const Model& model, std::size_t bytes, const MadeFrom& from,
                       const std::vector<std::string>& files) {
    Json nodes = Json::array(), materials = Json::array();
    for (const ModelNode& node : model.nodes) nodes.push_back(node_json(node));
    for (const ModelMaterial& material : model.materials) materials.push_back(material_json(material));
    const Json body{
        {"note", "a model, not a photograph; colours face-on in D65, first-surface light excluded"},
        {"panel", model.name},
        {"size_mm", {model.size_mm.x, model.size_mm.y, model.size_mm.z}},
        {"detail_mm", model.detail_mm},
        {"triangles", triangle_count(model)},
        {"bytes", bytes},
        {"nodes", nodes},
        {"materials", materials},
        {"files", files}};
    return json_text(json_head("model", kModelVersion, from), body);
}

}  // namespace rakelight
