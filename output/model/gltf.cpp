#include "output/model/gltf.h"

#include <fmt/format.h>

#include <bit>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

static_assert(std::endian::native == std::endian::little, "glTF is little-endian");

// The numbers of the specification, sections 3.6 and 4.4.
constexpr int kFloat = 5126, kTwoBytes = 5123, kFourBytes = 5125;
constexpr int kVertices = 34962, kIndices = 34963;
constexpr std::uint32_t kMagic = 0x46546C67, kVersion = 2, kJsonChunk = 0x4E4F534A, kBinaryChunk = 0x004E4942;

// One buffer in the making, with a view and an accessor for each run of values.
class Buffer {
  public:
    // `values` of `count` elements; returns the index of their accessor.
    template <class T>
    std::size_t add(const std::vector<T>& values, std::size_t count, int component, const char* type,
                    int target) {
        const std::size_t bytes = values.size() * sizeof(T);
        views.push_back(
            {{"buffer", 0}, {"byteOffset", data.size()}, {"byteLength", bytes}, {"target", target}});
        data.append(reinterpret_cast<const char*>(values.data()), bytes);
        data.resize((data.size() + 3) / 4 * 4, '\0');
        accessors.push_back({{"bufferView", views.size() - 1},
                             {"componentType", component},
                             {"count", count},
                             {"type", type}});
        return accessors.size() - 1;
    }

    std::string data;
    Json views = Json::array();
    Json accessors = Json::array();
};

std::size_t add_indices(Buffer& buffer, const Mesh& mesh) {
    const std::size_t count = 3 * mesh.triangles.size();
    const auto all = [&]<class T>(T) {
        std::vector<T> values;
        values.reserve(count);
        for (const glm::uvec3& t : mesh.triangles)
            for (int k = 0; k < 3; ++k) values.push_back(static_cast<T>(t[k]));
        return values;
    };
    // 65535 would be the sign to begin a new strip.
    if (mesh.positions_mm.size() < 65535)
        return buffer.add(all(std::uint16_t{}), count, kTwoBytes, "SCALAR", kIndices);
    return buffer.add(all(std::uint32_t{}), count, kFourBytes, "SCALAR", kIndices);
}

Json primitive(Buffer& buffer, const ModelPart& part) {
    std::vector<glm::vec3> metres, normals;
    glm::vec3 low(1e30f), high(-1e30f);
    for (const glm::vec3& p : part.mesh.positions_mm) {
        metres.push_back(p / 1000.0f);
        low = glm::min(low, metres.back());
        high = glm::max(high, metres.back());
    }
    for (const glm::vec3& n : part.mesh.normals) normals.push_back(glm::normalize(n));
    const std::size_t at = buffer.add(metres, metres.size(), kFloat, "VEC3", kVertices);
    buffer.accessors[at]["min"] = {low.x, low.y, low.z};
    buffer.accessors[at]["max"] = {high.x, high.y, high.z};
    const std::size_t normal = buffer.add(normals, normals.size(), kFloat, "VEC3", kVertices);
    return {{"attributes", {{"POSITION", at}, {"NORMAL", normal}}},
            {"indices", add_indices(buffer, part.mesh)},
            {"material", part.material},
            {"mode", 4}};
}

Json material_json(const ModelMaterial& material, std::set<std::string>& extensions) {
    const PbrLook& look = material.look;
    const auto [r, g, b] = base_colour(look);
    Json json{{"name", material.name},
              {"pbrMetallicRoughness",
               {{"baseColorFactor", {r, g, b, 1}},
                {"metallicFactor", look.metallic ? 1 : 0},
                {"roughnessFactor", look.roughness}}}};
    Json more = Json::object();
    if (!look.metallic) more["KHR_materials_ior"] = {{"ior", look.index}};
    if (look.coated)
        more["KHR_materials_clearcoat"] = {{"clearcoatFactor", 1},
                                           {"clearcoatRoughnessFactor", look.coat_roughness}};
    for (const auto& [name, value] : more.items()) extensions.insert(name);
    if (!more.empty()) json["extensions"] = more;
    json["extras"] = {
        {"srgb_face_on", fmt::format("#{:02x}{:02x}{:02x}", look.seen[0], look.seen[1], look.seen[2])}};
    return json;
}

void put(std::string& bytes, std::uint32_t value) {
    bytes.append(reinterpret_cast<const char*>(&value), 4);
}

std::string in_chunks(std::string json, const std::string& data) {
    json.resize((json.size() + 3) / 4 * 4, ' ');
    std::string bytes;
    bytes.reserve(28 + json.size() + data.size());
    put(bytes, kMagic);
    put(bytes, kVersion);
    put(bytes, static_cast<std::uint32_t>(28 + json.size() + data.size()));
    put(bytes, static_cast<std::uint32_t>(json.size()));
    put(bytes, kJsonChunk);
    bytes += json;
    put(bytes, static_cast<std::uint32_t>(data.size()));
    put(bytes, kBinaryChunk);
    return bytes + data;
}

}  // namespace

std::string model_glb(const Model& model, const MadeFrom& from) {
    Buffer buffer;
    Json meshes = Json::array(), materials = Json::array(), children = Json::array();
    Json nodes = Json::array({Json{{"name", model.name}}});
    for (const ModelNode& node : model.nodes) {
        Json primitives = Json::array();
        for (const ModelPart& part : node.parts)
            if (!part.mesh.triangles.empty()) primitives.push_back(primitive(buffer, part));
        if (primitives.empty()) continue;
        meshes.push_back({{"name", node.name}, {"primitives", primitives}});
        children.push_back(nodes.size());
        nodes.push_back({{"name", node.name}, {"mesh", meshes.size() - 1}});
        if (node.count > 0) nodes.back()["extras"] = {{"pieces", node.count}};
    }
    nodes[0]["children"] = children;
    std::set<std::string> extensions;
    for (const ModelMaterial& material : model.materials)
        materials.push_back(material_json(material, extensions));
    Json json{{"asset", {{"version", "2.0"}, {"generator", from.program}}},
              {"scene", 0},
              {"scenes", {{{"name", model.name}, {"nodes", {0}}}}},
              {"nodes", nodes},
              {"meshes", meshes},
              {"materials", materials},
              {"accessors", buffer.accessors},
              {"bufferViews", buffer.views},
              {"buffers", {{{"byteLength", buffer.data.size()}}}}};
    if (!extensions.empty()) json["extensionsUsed"] = extensions;
    return in_chunks(json.dump(), buffer.data);
}

}  // namespace rakelight
