#include "scene/laying/laying.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <tbb/parallel_for_each.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <functional>
#include <numeric>
#include <optional>

#include "materials/maths/hash.h"
#include "scene/forms/heights.h"
#include "scene/forms/stone_body.h"
#include "scene/laying/boulders.h"
#include "scene/laying/contours.h"
#include "scene/laying/cut_at_gaps.h"
#include "scene/laying/region_plan.h"
#include "scene/laying/stone_check.h"
#include "scene/laying/thick_bed.h"
#include "scene/mix/fields.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"
#include "scene/opus/opus.h"
#include "scene/pieces/listed_pieces.h"
#include "scene/pieces/piece_numbers.h"
#include "scene/text/diagnostics.h"
#include "scene/text/layout_tree.h"
#include "scene/text/tree_words.h"

namespace rakelight {

namespace {

struct Stones {
    std::vector<SetStone> set;
    std::vector<StoneShape> shapes;
};

void set_stones(Stones& stones, const Layout& layout, const std::vector<PlacedStone>& wanted,
                double plane_mm) {
    const std::size_t before = stones.set.size();
    for (const auto& stone : wanted) {
        SetStone set;
        set.stone = stone;
        set.material = stone.material;
        set.top_mm = plane_mm + stone.proud_mm;
        stones.set.push_back(std::move(set));
    }
    std::vector<std::optional<StoneShape>> shapes(wanted.size());
    tbb::parallel_for(std::size_t{0}, shapes.size(), [&](std::size_t i) {
        SetStone& set = stones.set[before + i];
        shapes[i].emplace(set, layout.stock[set.material]);
        // Down to the backs of the thickest pieces.
        set.footprint_mm = shapes[i]->footprint(layout.panel.substrate.bed_mm);
    });
    for (auto& shape : shapes) stones.shapes.push_back(std::move(*shape));
}

std::vector<Ring> footprints_of(const std::vector<SetStone>& stones) {
    std::vector<Ring> footprints;
    for (const auto& stone : stones) footprints.push_back(stone.footprint_mm);
    return footprints;
}

// What a hand leaves over the panel's edge is ground flush.
void keep_on_panel(Ring& outline, const Panel& panel) {
    for (auto& p : outline) p = glm::clamp(p, glm::dvec2(0), glm::dvec2(panel.width_mm, panel.height_mm));
    const auto twice = [](const glm::dvec2& a, const glm::dvec2& b) { return glm::distance(a, b) < 1e-3; };
    outline.erase(std::unique(outline.begin(), outline.end(), twice), outline.end());
    if (outline.size() > 3 && twice(outline.front(), outline.back())) outline.pop_back();
}

// Where boulders may lie: whole on one panel.
std::vector<Region> whole_stones_on(const std::vector<Region>& regions, const Layout& layout) {
    std::vector<Region> on;
    for (std::size_t f = 0; f < regions.size(); ++f)
        on.push_back(off_gaps(regions[f], layout.panel, layout.fields[f].joint_mm));
    return on;
}

// What the file says of each field, and of all else but other fields, lights and what shows from where;
// nothing where fields are not one to one with what is said of them.
std::vector<std::string> said_of_fields(const Layout& layout) {
    constexpr std::array<std::string_view, 6> kElse{"lamps",    "daylight", "viewpoints",
                                                    "pictures", "fields",   "beside"};
    if (!layout.sources.tree) return {};
    const YamlValue& root = layout.sources.tree->root;
    std::string all;
    add_tree_words(root, all,
                   [&](std::string_view key) { return std::ranges::find(kElse, key) != kElse.end(); });
    for (const Material& material : layout.stock) all += material.name + "\n";
    std::vector<std::string> said;
    for (const YamlMember& m : root.members)
        if (m.key.text == "fields")
            for (const YamlValue& field : m.value.items) add_tree_words(field, said.emplace_back(all));
    return said.size() == layout.fields.size() ? said : std::vector<std::string>();
}

const LaidFields::Field* laid_before(const LaidFields& before, const LaidFields::Field& wanted) {
    const auto same = std::ranges::find_if(before.fields, [&](const LaidFields::Field& f) {
        return f.said == wanted.said && f.ground_mm == wanted.ground_mm;
    });
    return same == before.fields.end() ? nullptr : &*same;
}

// The largest first, so that no thread is left alone with it in the end.
std::vector<std::size_t> by_area(const std::vector<Region>& regions) {
    std::vector<double> area;
    for (const Region& region : regions) area.push_back(area_mm2(region));
    std::vector<std::size_t> order(regions.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::greater(), [&](std::size_t f) { return area[f]; });
    return order;
}

// As lay, but for what the whole is warned of.
Laying lay_out(const Layout& layout, LaidFields* before) {
    if (!layout.pieces_file.empty()) return take_listed_pieces(layout);
    Laying laying;
    const double plane = face_plane_mm(layout);
    Stones stones;
    set_stones(stones, layout, layout.stones, plane);
    auto regions = plan_regions(layout, footprints_of(stones.set));
    if (const auto boulders = strewn_boulders(layout, whole_stones_on(regions, layout)); !boulders.empty()) {
        set_stones(stones, layout, boulders, plane);
        regions = plan_regions(layout, footprints_of(stones.set));
    }
    if (auto problems = check_stones(layout, stones.set, stones.shapes); !problems.empty())
        throw LayoutError(std::move(problems));
    const std::vector<Contours> contours = plan_contours(layout, regions, footprints_of(stones.set));
    for (std::size_t f = 0; f < regions.size(); ++f)
        if (is_of_whole_pieces(layout.fields[f].opus))
            regions[f] = off_gaps(regions[f], layout.panel, layout.fields[f].joint_mm);
    laying.stones = std::move(stones.set);
    std::vector<std::vector<Piece>> by_field(layout.fields.size());
    const std::vector<std::string> said = before ? said_of_fields(layout) : std::vector<std::string>();
    LaidFields laid;
    std::atomic<int> taken = 0;
    laid.fields.resize(said.size());
    const auto lay_one = [&](std::size_t f) {
        const Field& field = layout.fields[f];
        if (f < said.size()) {
            laid.fields[f] = {said[f], regions[f].rings, {}};
            for (const Region* edges : {&contours[f].halo, &contours[f].outline})
                laid.fields[f].ground_mm.insert(laid.fields[f].ground_mm.end(), edges->rings.begin(),
                                                edges->rings.end());
            if (const LaidFields::Field* same = laid_before(*before, laid.fields[f])) {
                by_field[f] = same->pieces;
                for (auto& piece : by_field[f]) piece.field = static_cast<std::uint32_t>(f);
                laid.fields[f].pieces = by_field[f];
                ++taken;
                return;
            }
        }
        const std::uint64_t seed = hash_combine(layout.panel.seed, hash_text(field.name));
        const double least_deg = least_angle_deg(field, layout.stock);
        auto& pieces = by_field[f] = lay_field(field, regions[f], seed, least_deg, contours[f]);
        if (!is_of_whole_pieces(field.opus)) {
            CuttingRules rules = hand_of(field).rules;
            rules.least_angle_deg = least_deg;
            cut_at_gaps(field, layout.panel, rules, pieces);
        }
        for (auto& piece : pieces) {
            piece.field = static_cast<std::uint32_t>(f);
            keep_on_panel(piece.outline_mm, layout.panel);
        }
        std::erase_if(pieces, [](const Piece& p) { return !star_centre(p.outline_mm); });
        if (f < said.size()) laid.fields[f].pieces = pieces;
    };
    tbb::parallel_for_each(by_area(regions), lay_one);
    if (before) *before = {std::move(laid.fields), taken};
    laying.notes = mix_fields(layout, regions, by_field);
    tbb::parallel_for(std::size_t{0}, layout.fields.size(), [&](std::size_t f) {
        set_heights(layout, layout.fields[f], plane, hash_combine(layout.panel.seed, 22), by_field[f]);
        number_pieces(by_field[f]);
    });
    std::vector<Problem> problems;
    for (std::size_t f = 0; f < by_field.size(); ++f) {
        if (by_field[f].empty())
            problems.push_back(
                {layout.fields[f].place, fmt::format("fields[{}].piece", f + 1),
                 fmt::format("found pieces too large for the field {}: not one can be cut to fit",
                             layout.fields[f].name)});
        laying.pieces.insert(laying.pieces.end(), by_field[f].begin(), by_field[f].end());
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return laying;
}

}  // namespace

Laying lay(const Layout& layout, LaidFields* before) {
    Laying laying = lay_out(layout, before);
    const std::vector<std::string> thick = thick_bed_warnings(layout, laying);
    laying.warnings.insert(laying.warnings.begin(), thick.begin(), thick.end());
    return laying;
}

}  // namespace rakelight
