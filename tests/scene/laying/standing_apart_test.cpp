// Nothing pokes through its neighbour and nothing floats, in three dimensions, on every layout that ships and
// on random ones.
#include <gtest/gtest.h>

#include <filesystem>

#include "materials/maths/hash.h"
#include "scene/forms/forms.h"
#include "scene/forms/stone_body.h"
#include "scene/geometry/region.h"
#include "scene/laying/stone_check.h"
#include "scene/model/form_words.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/opus/opera.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

struct Found {
    double stone_in_stone = 0;
    double stone_in_piece = 0;
    double piece_in_stone = 0;
    double piece_in_piece = 0;
    double out_of_bed = 0;
};

double inside_mm(const Ring& ring, const glm::dvec2& p) {
    if (!contains(ring, p)) return 0;
    double d = 1e9;
    for (std::size_t i = 0; i < ring.size(); ++i)
        d = std::min(d, distance_mm(p, ring[i], ring[(i + 1) % ring.size()]));
    return d;
}

// Every point of every mesh against the solids near it. A piece is at most the prism over its outline.
Found look(const Layout& layout, const Laying& laying) {
    Found found;
    constexpr double kCell_mm = 12;
    const int columns = static_cast<int>(layout.panel.width_mm / kCell_mm) + 1,
              rows = static_cast<int>(layout.panel.height_mm / kCell_mm) + 1;
    std::vector<std::vector<std::uint32_t>> cells(static_cast<std::size_t>(columns * rows));
    const auto cell = [&](double v, int most) {
        return std::clamp(static_cast<int>(v / kCell_mm), 0, most - 1);
    };
    std::vector<double> tops;
    std::vector<Mesh> meshes;
    for (std::uint32_t i = 0; i < laying.pieces.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        meshes.push_back(form_piece(piece, layout.stock[piece.material]));
        double top = 0, bottom = 1e9;
        for (const auto& p : meshes.back().positions_mm) {
            top = std::max(top, static_cast<double>(p.z));
            bottom = std::min(bottom, static_cast<double>(p.z));
        }
        tops.push_back(top);
        found.out_of_bed = std::max({found.out_of_bed, -bottom, bottom - face_plane_mm(layout)});
        const Box box = bounds(piece.outline_mm);
        for (int y = cell(box.low.y, rows); y <= cell(box.high.y, rows); ++y)
            for (int x = cell(box.low.x, columns); x <= cell(box.high.x, columns); ++x)
                cells[static_cast<std::size_t>(y * columns + x)].push_back(i);
    }
    const auto in_pieces = [&](const glm::dvec3& p, std::uint32_t but) {
        double most = 0;
        if (p.x < 0 || p.y < 0 || p.x > layout.panel.width_mm || p.y > layout.panel.height_mm) return most;
        for (const auto i : cells[static_cast<std::size_t>(cell(p.y, rows) * columns + cell(p.x, columns))]) {
            const Piece& piece = laying.pieces[i];
            const double back = piece.top_mm - piece.thickness_mm;
            if (i == but || p.z < back || p.z > tops[i]) continue;
            most = std::max(
                most, std::min({inside_mm(piece.outline_mm, glm::dvec2(p)), p.z - back, tops[i] - p.z}));
        }
        return most;
    };
    for (std::uint32_t i = 0; i < meshes.size(); ++i)
        for (const auto& p : meshes[i].positions_mm)
            found.piece_in_piece = std::max(found.piece_in_piece, in_pieces(glm::dvec3(p), i));
    for (std::size_t s = 0; s < laying.stones.size(); ++s) {
        const SetStone& set = laying.stones[s];
        const Material& material = layout.stock[set.material];
        for (const auto& p : form_stone(set, material).positions_mm)
            found.stone_in_piece = std::max(found.stone_in_piece, in_pieces(glm::dvec3(p), 0xffffffffu));
        const StoneShape shape(set, material);
        const double far = glm::length(set.stone.size_mm);
        for (const auto& mesh : meshes) {
            if (glm::distance(glm::dvec2(mesh.positions_mm[0]), set.stone.at_mm) > far) continue;
            for (const auto& p : mesh.positions_mm)
                found.piece_in_stone = std::max(found.piece_in_stone, shape.depth_mm(glm::dvec3(p)));
        }
        for (std::size_t o = 0; o < s; ++o)
            found.stone_in_stone = std::max(
                found.stone_in_stone,
                overlap_mm(set, material, laying.stones[o], layout.stock[laying.stones[o].material]));
    }
    return found;
}

void expect_apart(const Layout& layout, const std::string& what) {
    const Found found = look(layout, lay(layout));
    EXPECT_LE(found.stone_in_stone, kRub_mm) << what;
    EXPECT_LE(found.stone_in_piece, 0.1) << what;
    EXPECT_LE(found.piece_in_stone, 0.1) << what;
    EXPECT_LE(found.piece_in_piece, 1e-3) << what;
    EXPECT_LE(found.out_of_bed, 1e-3) << what;
}

TEST(StandingApart, OnEveryLayoutThatShips) {
    for (const auto& entry : std::filesystem::directory_iterator(RAKELIGHT_SCENES))
        if (entry.path().extension() == ".yaml")
            expect_apart(read_layout(entry.path()), entry.path().string());
}

// Every opus in forms of every kind, round three stones that lie a stone's length apart, so that nothing is
// to be refused.
TEST(StandingApart, OnRandomLayouts) {
    constexpr std::size_t kTurns = 2;
    for (std::size_t i = 0; i < kTurns * opera().size(); ++i) {
        const auto opus = static_cast<Opus>(i % opera().size());
        Rng rng(i + 1);
        Layout layout = sample_layout(opus, rng.within(7, 16), rng.within(6, 12), rng.within(0.8, 3));
        layout.panel.width_mm = 220;
        layout.panel.height_mm = 160;
        Field& field = layout.fields[0];
        field.setting.form = static_cast<PieceForm>(1 + i % (form_words().size() - 1));
        field.tilt_deg = rng.within(0, 8);
        field.lippage_mm = rng.within(0, 2);
        field.on_edge = i >= opera().size();
        field.mix = {{kGlass, 0.5}, {kSlate, 0.2}, {kPumice, 0.2}, {kSlag, 0.1}};
        give_what_opus_needs(field, {layout.panel.width_mm, layout.panel.height_mm});
        for (int s = 0; s < 3; ++s) {
            PlacedStone stone;
            stone.material = s == 0 ? kPumice : s == 1 ? kSlag : kSlate;
            stone.at_mm = {40 + 70 * s + rng.within(-9, 9), rng.within(30, 130)};
            stone.size_mm = {rng.within(20, 50), rng.within(18, 36), rng.within(14, 30)};
            stone.turn_deg = rng.within(-180, 180);
            stone.proud_mm = stone.size_mm.z * rng.within(0.3, 0.7);
            stone.form = s == 2 ? "pebble" : "chunk";
            stone.seed = i * 10 + static_cast<std::uint64_t>(s);
            layout.stones.push_back(stone);
        }
        expect_apart(layout, std::string(opera()[i % opera().size()].word) + ' ' + std::to_string(i));
    }
}

}  // namespace
}  // namespace rakelight
