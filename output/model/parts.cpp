#include "output/model/parts.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "materials/maths/hash.h"
#include "materials/stock/finish.h"
#include "output/lay/paintbox.h"
#include "output/model/simplified.h"
#include "scene/forms/forms.h"
#include "scene/forms/joint_surface.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/model/panel_spans.h"
#include "scene/room/joinery.h"

namespace rakelight {

namespace {

constexpr const char* kLight = "D65";

void append(Mesh& to, const Mesh& mesh, const glm::vec3& shift_mm) {
    const auto first = static_cast<std::uint32_t>(to.positions_mm.size());
    for (const glm::vec3& p : mesh.positions_mm) to.positions_mm.push_back(p + shift_mm);
    to.normals.insert(to.normals.end(), mesh.normals.begin(), mesh.normals.end());
    for (const glm::uvec3& t : mesh.triangles) to.triangles.push_back(t + first);
}

class Builder {
  public:
    Builder(const Layout& layout, const Laying& laying, const LayingReport& report, Model& model)
        : layout_(layout),
          laying_(laying),
          report_(report),
          model_(model),
          paints_(kLight),
          to_model_mm_(-layout.panel.width_mm / 2, -layout.panel.height_mm / 2,
                       layout.panel.substrate.thickness_mm) {}

    void add_fields();
    void add_stones();
    void add_joints();
    void add_board_and_frame();

  private:
    std::size_t material(const std::string& name, const PbrLook& look);
    Mesh& part(ModelNode& node, std::size_t material);
    std::size_t material_of(const Piece& piece);
    void add_plain(ModelNodeKind kind, const std::string& name, std::uint32_t stock,
                   const std::vector<Mesh>& meshes);

    const Layout& layout_;
    const Laying& laying_;
    const LayingReport& report_;
    Model& model_;
    Paintbox paints_;
    glm::vec3 to_model_mm_;
    std::map<std::pair<std::string, PbrLook>, std::size_t> known_;
};

std::size_t Builder::material(const std::string& name, const PbrLook& look) {
    const auto [it, fresh] = known_.try_emplace({name, look}, model_.materials.size());
    if (fresh) model_.materials.push_back({name, look});
    return it->second;
}

Mesh& Builder::part(ModelNode& node, std::size_t material) {
    const auto it = std::ranges::find(node.parts, material, &ModelPart::material);
    if (it != node.parts.end()) return it->mesh;
    node.parts.push_back({material, {}});
    return node.parts.back().mesh;
}

std::size_t Builder::material_of(const Piece& piece) {
    const Material& stuff = layout_.stock[piece.material];
    // As the picture's own deviate (surface_cache.h), in coarser steps.
    const double deviate = std::clamp(Rng(hash_combine(piece.seed, 1)).spread(), -2.0, 2.0);
    const double tone = std::exp(static_cast<double>(stuff.tone_spread) * std::round(deviate));
    const bool tumbled = piece.form == PieceForm::tumbled;
    const Material face = tumbled ? finished(stuff, Finish::tumbled) : stuff;
    return material(stuff.name, pbr_look(face, paints_.of(piece, layout_, laying_, tone)));
}

void Builder::add_fields() {
    std::vector<Mesh> forms(laying_.pieces.size());
    tbb::parallel_for(std::size_t{0}, forms.size(), [&](std::size_t i) {
        const Piece& piece = laying_.pieces[i];
        forms[i] = simplified(form_piece(piece, layout_.stock[piece.material]), model_.detail_mm);
    });
    for (std::size_t f = 0; f < layout_.fields.size(); ++f) {
        ModelNode node{layout_.fields[f].name, ModelNodeKind::field, 0, {}};
        for (std::size_t i = 0; i < forms.size(); ++i) {
            if (laying_.pieces[i].field != f) continue;
            append(part(node, material_of(laying_.pieces[i])), forms[i], to_model_mm_);
            ++node.count;
        }
        if (node.count > 0) model_.nodes.push_back(std::move(node));
    }
}

void Builder::add_stones() {
    if (laying_.stones.empty()) return;
    std::vector<Mesh> forms(laying_.stones.size());
    tbb::parallel_for(std::size_t{0}, forms.size(), [&](std::size_t i) {
        const SetStone& set = laying_.stones[i];
        forms[i] = simplified(form_stone(set, layout_.stock[set.material]), model_.detail_mm);
    });
    ModelNode node{"stones", ModelNodeKind::stones, forms.size(), {}};
    for (std::size_t i = 0; i < forms.size(); ++i) {
        const Material& stuff = layout_.stock[laying_.stones[i].material];
        append(part(node, material(stuff.name, pbr_look(stuff, report_.stone_colour[i]))), forms[i],
               to_model_mm_);
    }
    model_.nodes.push_back(std::move(node));
}

void Builder::add_joints() {
    const JointSurface joints = form_joints(layout_, laying_);
    for (std::uint32_t tint = 0; tint < layout_.tints.size(); ++tint) {
        const Mesh mesh = simplified(part_of(joints, tint), model_.detail_mm);
        if (mesh.triangles.empty()) continue;
        const Material& stuff = layout_.tints[tint];
        ModelNode node{"joints, " + stuff.name, ModelNodeKind::joints, 0, {}};
        const auto look = pbr_look(stuff, paints_.of(stuff, static_cast<double>(stuff.thickness_mm)));
        append(part(node, material(stuff.name, look)), mesh, to_model_mm_);
        model_.nodes.push_back(std::move(node));
    }
}

void Builder::add_plain(ModelNodeKind kind, const std::string& name, std::uint32_t stock,
                        const std::vector<Mesh>& meshes) {
    const Material& stuff = layout_.stock[stock];
    ModelNode node{name, kind, 0, {}};
    const auto look = pbr_look(stuff, paints_.of(stuff, static_cast<double>(stuff.thickness_mm)));
    for (const Mesh& mesh : meshes)  // about the panel's middle already
        append(part(node, material(stuff.name, look)), simplified(mesh, model_.detail_mm),
               {0, 0, to_model_mm_.z});
    model_.nodes.push_back(std::move(node));
}

void Builder::add_board_and_frame() {
    const Panel& whole = layout_.panel;
    std::vector<Mesh> boards, bars;
    const auto put = [](std::vector<Mesh>& to, Mesh mesh, double aside_mm) {
        for (glm::vec3& p : mesh.positions_mm) p.x += static_cast<float>(aside_mm);
        to.push_back(std::move(mesh));
    };
    for (const PanelSpan& span : panel_spans(whole)) {
        const Panel panel = panel_of(whole, span);
        const glm::dvec2 size(panel.width_mm, panel.height_mm);
        const double thickness = panel.substrate.thickness_mm, gap = panel.frame ? panel.frame->gap_mm : 0;
        const double aside = (span.left_mm + span.right_mm - whole.width_mm) / 2;
        put(boards, box_mesh({-size / 2.0 - gap, -thickness}, {size / 2.0 + gap, 0}), aside);
        if (!panel.frame) continue;
        const double front = face_plane_mm(layout_) + panel.frame->proud_mm;
        for (int side = 0; side < kFrameSides; ++side)
            put(bars,
                frame_bar_mesh(side, size.x + 2 * gap, size.y + 2 * gap, panel.frame->width_mm, -thickness,
                               front),
                aside);
    }
    add_plain(ModelNodeKind::board, "board", whole.substrate.material, boards);
    if (whole.frame) add_plain(ModelNodeKind::frame, "frame", whole.frame->material, bars);
}

glm::dvec3 extent_mm(const Model& model) {
    glm::vec3 low(1e30f), high(-1e30f);
    for (const ModelNode& node : model.nodes)
        for (const ModelPart& part : node.parts)
            for (const glm::vec3& p : part.mesh.positions_mm) {
                low = glm::min(low, p);
                high = glm::max(high, p);
            }
    return high - low;
}

}  // namespace

Model make_model(const Layout& layout, const Laying& laying, const LayingReport& report, double detail_mm) {
    Model model;
    model.name = layout.panel.name;
    model.detail_mm = detail_mm;
    Builder builder(layout, laying, report, model);
    builder.add_fields();
    builder.add_stones();
    builder.add_joints();
    builder.add_board_and_frame();
    model.size_mm = extent_mm(model);
    return model;
}

std::size_t triangle_count(const Model& model) {
    std::size_t count = 0;
    for (const ModelNode& node : model.nodes)
        for (const ModelPart& part : node.parts) count += part.mesh.triangles.size();
    return count;
}

}  // namespace rakelight
