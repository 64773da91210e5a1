// A model read back as a stranger would: by the numbers of ISO/IEC 12113:2022, not by what writes them.
#include "output/model/gltf.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <map>
#include <nlohmann/json.hpp>
#include <numeric>

#include "materials/colour/colorimetry.h"
#include "materials/optics/fresnel.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

using Json = nlohmann::json;

constexpr const char* kTide =
    "panel: {name: Tide, size: [160, 115], frame: {material: oak, width: 12, gap: 3}}\n"
    "stock: {even: {like: deep-teal, tone spread: 0}, gold: {like: clear, leaf: gold, tone spread: 0}}\n"
    "stones: [{material: slag, at: [40, 42], size: [60, 50, 38], proud: 26}]\n"
    "fields:\n"
    "  - {name: foam, outline: [[80, -5], [130, -5], [150, 70], [110, 120], [95, 120]], opus: tessellatum, "
    "piece: 9,"
    " joint: 1.6, mix: gold, bed: white, grout: pale-grey}\n"
    "  - {name: sea, opus: tessellatum, piece: [10, 8], joint: 1.6, mix: {even: 60 %, slate: 40 %}, bed: "
    "white,"
    " grout: charcoal}\n";

std::uint32_t word_at(const std::string& bytes, std::size_t at) {
    std::uint32_t word = 0;
    std::memcpy(&word, bytes.data() + at, 4);
    return word;
}

/// A .glb taken apart.
struct Read {
    Json json;
    std::string data;

    explicit Read(const std::string& bytes) {
        EXPECT_EQ(bytes.substr(0, 4), "glTF");
        EXPECT_EQ(word_at(bytes, 4), 2u);
        EXPECT_EQ(word_at(bytes, 8), bytes.size());
        const std::size_t length = word_at(bytes, 12);
        EXPECT_EQ(bytes.substr(16, 4), "JSON");
        EXPECT_EQ(length % 4, 0u);
        json = Json::parse(bytes.substr(20, length));
        EXPECT_EQ(word_at(bytes, 24 + length), 0x004E4942u);
        data = bytes.substr(28 + length);
        EXPECT_EQ(word_at(bytes, 20 + length), data.size());
        EXPECT_EQ(json["buffers"][0]["byteLength"], data.size());
    }

    template <class T>
    std::vector<T> values(std::size_t accessor) const {
        const Json& a = json["accessors"][accessor];
        const Json& view = json["bufferViews"][a["bufferView"].get<std::size_t>()];
        const std::size_t from = view["byteOffset"], length = view["byteLength"];
        EXPECT_EQ(from % 4, 0u);
        EXPECT_LE(from + length, data.size());
        std::vector<T> out(a["count"].get<std::size_t>());
        EXPECT_EQ(out.size() * sizeof(T), length);
        std::memcpy(out.data(), data.data() + from, length);
        return out;
    }

    std::vector<std::uint32_t> indices(const Json& primitive) const {
        const std::size_t accessor = primitive["indices"];
        if (json["accessors"][accessor]["componentType"] == 5125) return values<std::uint32_t>(accessor);
        const auto small = values<std::uint16_t>(accessor);
        return {small.begin(), small.end()};
    }

    const Json& primitives(const Json& node) const {
        return json["meshes"][node["mesh"].get<std::size_t>()]["primitives"];
    }

    const Json& node(const std::string& name) const {
        for (const Json& n : json["nodes"])
            if (n["name"] == name && n.contains("mesh")) return n;
        ADD_FAILURE() << "no node " << name;
        return json;
    }
};

struct Made {
    Layout layout = read_layout_text(kTide, "tide.yaml");
    Laying laying = lay(layout);
    LayingReport report = report_laying(layout, laying, "p", 0);
    Read read(double detail_mm) const {
        return Read(model_glb(make_model(layout, laying, report, detail_mm), {"p", "tide.yaml", 0}));
    }
};

// Bodies that hang together by points of equal place, and the volume that they enclose.
struct Bodies {
    std::size_t count = 0;
    double volume_mm3 = 0;
};

Bodies bodies_of(const Read& read, const Json& primitive) {
    const auto at = read.values<glm::vec3>(primitive["attributes"]["POSITION"]);
    const auto indices = read.indices(primitive);
    std::vector<std::size_t> parent(at.size());
    std::iota(parent.begin(), parent.end(), std::size_t{0});
    const auto root = [&](std::size_t i) {
        while (parent[i] != i) i = parent[i] = parent[parent[i]];
        return i;
    };
    std::map<std::array<float, 3>, std::size_t> weld;
    for (std::size_t i = 0; i < at.size(); ++i)
        parent[i] = weld.try_emplace({at[i].x, at[i].y, at[i].z}, i).first->second;
    Bodies bodies;
    for (std::size_t k = 0; k + 2 < indices.size(); k += 3) {
        for (std::size_t j = 1; j < 3; ++j) parent[root(indices[k + j])] = root(indices[k]);
        const glm::dvec3 a = at[indices[k]], b = at[indices[k + 1]], c = at[indices[k + 2]];
        bodies.volume_mm3 += 1e9 * glm::dot(a, glm::cross(b, c)) / 6;
    }
    for (std::size_t i = 0; i < at.size(); ++i) bodies.count += parent[i] == i;
    return bodies;
}

// Every accessor says what is in it: least and most of places to the bit, indices in range, unit normals
// (3.7.2.1).
TEST(Gltf, AccessorsAreTrue) {
    const Made made;
    const Read read = made.read(0.2);
    EXPECT_EQ(read.json["asset"]["version"], "2.0");
    for (const Json& mesh : read.json["meshes"])
        for (const Json& primitive : mesh["primitives"]) {
            const std::size_t accessor = primitive["attributes"]["POSITION"];
            glm::vec3 low(1e30f), high(-1e30f);
            const auto at = read.values<glm::vec3>(accessor);
            for (const glm::vec3& p : at) {
                low = glm::min(low, p);
                high = glm::max(high, p);
            }
            for (int k = 0; k < 3; ++k) {
                EXPECT_EQ(read.json["accessors"][accessor]["min"][static_cast<std::size_t>(k)].get<float>(),
                          low[k]);
                EXPECT_EQ(read.json["accessors"][accessor]["max"][static_cast<std::size_t>(k)].get<float>(),
                          high[k]);
            }
            for (const std::uint32_t i : read.indices(primitive)) ASSERT_LT(i, at.size());
            const auto normals = read.values<glm::vec3>(primitive["attributes"]["NORMAL"]);
            ASSERT_EQ(normals.size(), at.size());
            for (const glm::vec3& n : normals) ASSERT_NEAR(glm::length(n), 1, 1e-5);
            ASSERT_LT(primitive["material"].get<std::size_t>(), read.json["materials"].size());
        }
}

// Real size: panel, shadow gaps and frame, in metres, about the middle.
TEST(Gltf, SizeIsInMetres) {
    const Made made;
    const Read read = made.read(0.2);
    const Json& primitive = read.primitives(read.node("frame"))[0];
    const Json& accessor = read.json["accessors"][primitive["attributes"]["POSITION"].get<std::size_t>()];
    const double half_width_m = (160 + 2 * 3 + 2 * 12) / 2000.0,
                 half_height_m = (115 + 2 * 3 + 2 * 12) / 2000.0;
    EXPECT_NEAR(accessor["max"][0], half_width_m, 1e-7);
    EXPECT_NEAR(accessor["min"][0], -half_width_m, 1e-7);
    EXPECT_NEAR(accessor["max"][1], half_height_m, 1e-7);
    EXPECT_NEAR(accessor["min"][1], -half_height_m, 1e-7);
    EXPECT_NEAR(accessor["min"][2], 0, 1e-7);  // the back lies in the plane that it hangs by
}

// As many bodies as the list of pieces has; with every triangle their volume is that which the list weighs,
// and with fewer no more than a fiftieth off (the detail over all faces
// of a piece would be a sixth).
TEST(Gltf, CountsAndVolumesAreThoseOfTheList) {
    const Made made;
    for (const double detail_mm : {0.0, 0.2}) {
        const Read read = made.read(detail_mm);
        for (std::size_t f = 0; f < made.layout.fields.size(); ++f) {
            const Json& node = read.node(made.layout.fields[f].name);
            EXPECT_EQ(node["extras"]["pieces"], made.report.fields[f].count);
            std::size_t count = 0;
            double volume_mm3 = 0, weighed_mm3 = 0;
            for (const Json& primitive : read.primitives(node)) {
                const Bodies bodies = bodies_of(read, primitive);
                count += bodies.count;
                volume_mm3 += bodies.volume_mm3;
            }
            for (const LaidCount& c : made.report.fields[f].materials)
                weighed_mm3 +=
                    c.mass_g * 1000 / static_cast<double>(made.layout.stock[c.material].density_g_per_cm3);
            EXPECT_EQ(count, made.report.fields[f].count);
            EXPECT_NEAR(volume_mm3 / weighed_mm3, 1, detail_mm > 0 ? 0.02 : 1e-4)
                << made.layout.fields[f].name;
        }
        EXPECT_EQ(bodies_of(read, read.primitives(read.node("stones"))[0]).count, 1u);
    }
}

const Json* material_called(const Read& read, const std::string& name) {
    for (const Json& m : read.json["materials"])
        if (m["name"] == name) return &m;
    return nullptr;
}

// What a viewer shows face-on is baseColorFactor times what its face lets in (appendix B.3.1,
// dielectric_brdf), and for a clear coat of index 1.5 times what that lets in. It is the colour of the
// drawing, to half a step of eight bits.
TEST(Gltf, ColoursAreThoseOfTheDrawing) {
    const Made made;
    const Read read = made.read(0.3);
    for (std::size_t i = 0; i < made.laying.pieces.size(); ++i) {
        const Material& stuff = made.layout.stock[made.laying.pieces[i].material];
        if (stuff.tone_spread > 0) continue;
        const Json* material = material_called(read, stuff.name);
        ASSERT_NE(material, nullptr) << stuff.name;
        const Json& pbr = (*material)["pbrMetallicRoughness"];
        double index = 1.5;
        if (material->contains("extensions") && (*material)["extensions"].contains("KHR_materials_ior"))
            index = (*material)["extensions"]["KHR_materials_ior"]["ior"];
        const bool bare_metal =
            pbr["metallicFactor"] == 1 && !(*material)["extensions"].contains("KHR_materials_clearcoat");
        const double in = bare_metal ? 1 : 1 - dielectric_reflectance(1.0, index);
        for (std::size_t c = 0; c < 3; ++c) {
            const double linear = pbr["baseColorFactor"][c].get<double>() * in;
            EXPECT_EQ(to_bytes(encode({linear, linear, linear}))[0], made.report.piece_colour[i][c])
                << stuff.name;
        }
    }
    EXPECT_EQ((*material_called(read, "gold"))["pbrMetallicRoughness"]["metallicFactor"], 1);
    EXPECT_TRUE((*material_called(read, "gold"))["extensions"].contains("KHR_materials_clearcoat"));
}

// Section 3.9.2 and appendix B.2: alpha of GGX is the square of the roughness.
TEST(Gltf, RoughnessIsTheRootOfAlpha) {
    Material stone;
    stone.index = 1.5f;
    stone.roughness = 0.25f;
    EXPECT_DOUBLE_EQ(pbr_look(stone, {1, 2, 3}).roughness, 0.5);
    stone.index = 1;
    EXPECT_DOUBLE_EQ(pbr_look(stone, {1, 2, 3}).roughness, 1);
    stone.leaf = Leaf::gold;
    stone.leaf_roughness = 0.09f;
    const PbrLook bare = pbr_look(stone, {255, 200, 100});
    EXPECT_TRUE(bare.metallic);
    EXPECT_FALSE(bare.coated);
    EXPECT_NEAR(bare.roughness, 0.3, 1e-6);
    EXPECT_DOUBLE_EQ(base_colour(bare)[0], 1);
}

TEST(Gltf, SameInputSameBytes) {
    const Made made;
    const auto bytes = [&] {
        return model_glb(make_model(made.layout, made.laying, made.report, 0.2), {"p", "t", 0});
    };
    EXPECT_TRUE(bytes() == bytes());
}

// A quarter of 5,000 pieces in a quarter of 60 MB.
TEST(Gltf, FiveThousandPiecesTakeLessThanSixtyMegabytes) {
    const Layout layout = read_layout_text(
        "panel: {size: [400, 300]}\nfields: [{name: all, piece: 8, joint: 1.5, mix: {aqua: 50 %, slate: 50 "
        "%}}]\n",
        "t.yaml");
    const Laying laying = lay(layout);
    const LayingReport report = report_laying(layout, laying, "p", 0);
    const std::string glb = model_glb(make_model(layout, laying, report, 0.2), {"p", "t.yaml", 0});
    EXPECT_GT(laying.pieces.size(), 1200u);
    EXPECT_LT(static_cast<double>(glb.size()) / static_cast<double>(laying.pieces.size()), 60e6 / 5000);
}

}  // namespace
}  // namespace rakelight
