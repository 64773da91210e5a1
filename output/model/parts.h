// What a model of the laid panel consists of: a node for the pieces of each field, one for stones, one for
// the joints of each tint, one for the board and one for the frame; in each a mesh for every look.
#pragma once

#include <string>
#include <vector>

#include "output/lay/report.h"
#include "output/model/pbr.h"
#include "scene/geometry/mesh.h"

namespace rakelight {

struct Layout;

/// A glTF material.
struct ModelMaterial {
    std::string name;
    PbrLook look;
};

/// Triangles of one look.
struct ModelPart {
    std::size_t material = 0;  ///< index in `Model::materials`
    Mesh mesh;                 ///< millimetres, from the middle of the panel's back, y up, z out of the wall
};

enum class ModelNodeKind { field, stones, joints, board, frame };

struct ModelNode {
    std::string name;
    ModelNodeKind kind = ModelNodeKind::field;
    std::size_t count = 0;  ///< of pieces or stones
    std::vector<ModelPart> parts;
};

struct Model {
    std::string name;      ///< of the panel
    glm::dvec3 size_mm{};  ///< over all: width, height, depth
    double detail_mm = 0;  ///< how far triangles may stray
    std::vector<ModelMaterial> materials;
    std::vector<ModelNode> nodes;
};

/// The model, all triangles simplified to `detail_mm`. The tone of pieces goes in steps of one standard
/// deviation, two to either side, so that pieces of one tone share a mesh. \throws Interrupted.
Model make_model(const Layout& layout, const Laying& laying, const LayingReport& report, double detail_mm);

/// Of all its meshes.
std::size_t triangle_count(const Model& model);

}  // namespace rakelight
