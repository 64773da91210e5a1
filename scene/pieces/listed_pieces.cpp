#include "scene/pieces/listed_pieces.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "materials/maths/hash.h"
#include "scene/forms/heights.h"
#include "scene/forms/stone_body.h"
#include "scene/geometry/region.h"
#include "scene/geometry/stroke.h"
#include "scene/model/form_words.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/opera.h"
#include "scene/pieces/piece_numbers.h"
#include "scene/pieces/piece_overlaps.h"
#include "scene/pieces/piece_table.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

constexpr double kOffPanel_mm = 0.01;
constexpr std::size_t kMostProblems = 100;
constexpr std::size_t kMostOverlapsTold = 20;

class Taker {
  public:
    explicit Taker(const Layout& layout) : layout_(layout), plane_mm_(face_plane_mm(layout)) {
        for (std::uint32_t i = 0; i < layout.fields.size(); ++i) fields_.emplace(layout.fields[i].name, i);
    }

    void take(const PieceRow& row) {
        if (row.is_stone())
            stone(row);
        else
            cut(row);
    }

    Laying finish() {
        number();
        tell_overlaps();
        if (!problems_.empty()) throw LayoutError(std::move(problems_));
        return std::move(laying_);
    }

  private:
    void complain(const PieceRow& row, const char* column, std::string text) {
        if (problems_.size() < kMostProblems)
            problems_.push_back(
                {row.place, row.key.empty() ? column : row.key + '.' + column, std::move(text)});
    }

    void cut(const PieceRow& row) {
        Piece piece;
        piece.field = fields_.at(row.field);
        piece.material = row.stock;
        piece.outline_mm = row.outline_mm;
        if (!good_outline(row, piece.outline_mm)) return;
        if (const glm::dvec2 by = moved_by(row, piece.outline_mm); by != glm::dvec2(0))
            for (auto& p : piece.outline_mm) p += by;
        if (!on_panel(row, piece.outline_mm)) return;
        const Field& field = layout_.fields[piece.field];
        piece.seed = row.seed.value_or(usual_seed(row, piece.outline_mm));
        piece.form = form_of(row, field);
        piece.dome_mm = row.dome_mm ? row.dome_mm : field.setting.dome_mm;
        piece.top_mm = stand(field, layout_.stock[piece.material], plane_mm_, piece);
        if (row.thickness_mm) piece.thickness_mm = *row.thickness_mm;
        if (row.height_mm) piece.top_mm = *row.height_mm;
        if (piece.top_mm < piece.thickness_mm)
            complain(row, "height_mm",
                     fmt::format(
                         "found a face {:g} mm above the substrate, expected at least the {:g} mm that the "
                         "piece is thick",
                         piece.top_mm, piece.thickness_mm));
        piece.tilt_rad = tilt_rad_of({row.tilt_x_deg.value_or(0), row.tilt_y_deg.value_or(0)});
        piece.along = direction_of(row.rotation_deg.value_or(usual_rotation_deg(piece.outline_mm)));
        piece.number = row.number.value_or(0);
        laying_.pieces.push_back(std::move(piece));
        rows_.push_back(&row);
    }

    void stone(const PieceRow& row) {
        SetStone set;
        set.material = set.stone.material = row.stock;
        set.stone.form = row.form;
        set.stone.place = row.place;
        if (!row.x_mm || !row.y_mm)
            return complain(row, "x_mm", "found no centre, expected x_mm and y_mm of the stone");
        if (!row.length_mm || !row.width_mm || !row.thickness_mm ||
            std::min(*row.length_mm, *row.width_mm) < 1)
            return complain(
                row, "length_mm",
                "found no size, expected length_mm, width_mm and thickness_mm of the stone, from 1 mm");
        set.stone.at_mm = {*row.x_mm, *row.y_mm};
        set.stone.size_mm = {*row.length_mm, *row.width_mm, *row.thickness_mm};
        set.stone.turn_deg = row.rotation_deg.value_or(0);
        set.top_mm = row.height_mm.value_or(plane_mm_ + std::min(10.0, 0.5 * *row.thickness_mm));
        set.stone.proud_mm = lattice_mm(set.top_mm - plane_mm_);
        set.stone.seed = row.seed.value_or(laying_.stones.size() + 1);
        if (set.stone.proud_mm >= set.stone.size_mm.z || set.stone.proud_mm < 0)
            return complain(
                row, "height_mm",
                fmt::format("found {:g} mm, expected {:g} to {:g} mm: proud of the faces and touching its "
                            "bed",
                            set.top_mm, plane_mm_, plane_mm_ + set.stone.size_mm.z));
        const glm::dvec2 at = set.stone.at_mm;
        if (at.x < 0 || at.y < 0 || at.x > layout_.panel.width_mm || at.y > layout_.panel.height_mm)
            return complain(row, "x_mm", off_panel(at));
        set.footprint_mm = stone_footprint(set, layout_.stock[set.material], layout_.panel.substrate.bed_mm);
        if (on_one_panel(row, "x_mm", set.footprint_mm)) laying_.stones.push_back(std::move(set));
    }

    bool good_outline(const PieceRow& row, Ring& outline) {
        if (outline.size() > 3 && outline.front() == outline.back()) outline.pop_back();
        if (outline.size() < 3) {
            complain(row, "outline_mm",
                     fmt::format("found {} points, expected three or more", outline.size()));
            return false;
        }
        for (const auto& p : outline)
            if (!(std::max(std::abs(p.x), std::abs(p.y)) < 1e5)) {
                complain(row, "outline_mm", off_panel(p));
                return false;
            }
        if (const auto at = self_crossing_mm(outline)) {
            complain(row, "outline_mm",
                     fmt::format(
                         "found an outline that crosses itself at [{:.2f}, {:.2f}] mm, expected a simple one",
                         at->x, at->y));
            return false;
        }
        if (area_mm2(outline) < 0) std::reverse(outline.begin() + 1, outline.end());
        if (star_centre(outline)) return true;
        complain(
            row, "outline_mm",
            "found an outline that bends too far for one piece, expected all of its edge to be seen from one "
            "point within: cut it in two");
        return false;
    }

    glm::dvec2 moved_by(const PieceRow& row, const Ring& outline) const {
        const glm::dvec2 is = lattice_mm(centroid(outline));
        return {row.x_mm.value_or(is.x) - is.x, row.y_mm.value_or(is.y) - is.y};
    }

    std::string off_panel(const glm::dvec2& p) const {
        return fmt::format("found [{:.2f}, {:.2f}] off the panel, expected [0, 0] to [{:g}, {:g}] mm", p.x,
                           p.y, layout_.panel.width_mm, layout_.panel.height_mm);
    }

    bool on_panel(const PieceRow& row, const Ring& outline) {
        for (const auto& p : outline) {
            const glm::dvec2 beyond =
                glm::max(-p, p - glm::dvec2(layout_.panel.width_mm, layout_.panel.height_mm));
            if (std::max(beyond.x, beyond.y) <= kOffPanel_mm) continue;
            complain(row, "outline_mm", off_panel(p));
            return false;
        }
        return on_one_panel(row, "outline_mm", outline);
    }

    // A piece or a stone stands on one panel of a divided work.
    bool on_one_panel(const PieceRow& row, const char* key, const Ring& outline) {
        const std::vector<PanelSpan> spans = panel_spans(layout_.panel);
        if (spans.size() == 1) return true;
        const Box box = bounds(outline);
        const PanelSpan& span = spans[span_at(spans, (box.low.x + box.high.x) / 2)];
        const double left = span.left_mm > 0 ? span.left_mm - box.low.x : 0;
        const double right = span.right_mm < layout_.panel.width_mm ? box.high.x - span.right_mm : 0;
        if (std::max(left, right) <= kOffPanel_mm) return true;
        complain(
            row, key,
            fmt::format("found x from {:.2f} to {:.2f} mm, expected it on one panel, as '{}' from {:g} to "
                        "{:g} mm",
                        box.low.x, box.high.x, span.name, span.left_mm, span.right_mm));
        return false;
    }

    static PieceForm form_of(const PieceRow& row, const Field& field) {
        const auto& words = form_words();
        const auto word = std::find(words.begin(), words.end(), row.form);
        if (word != words.end()) return static_cast<PieceForm>(word - words.begin());
        return rule_of(field.opus).only_form.value_or(field.setting.form);
    }

    static double usual_rotation_deg(const Ring& outline) {
        glm::dvec2 longest(0);
        for (const auto& [a, b] : edges(outline))
            if (glm::length(b - a) > glm::length(longest)) longest = b - a;
        return rotation_deg(longest);
    }

    static std::uint64_t usual_seed(const PieceRow& row, const Ring& outline) {
        std::uint64_t seed = hash_text(row.field);
        for (const auto& p : outline)
            for (const double v : {p.x, p.y})
                seed = hash_combine(
                    seed, static_cast<std::uint64_t>(static_cast<std::int64_t>(std::llround(v * 1e4))));
        return seed;
    }

    void number() {
        std::map<std::uint32_t, std::set<std::uint32_t>> taken;
        for (std::size_t i = 0; i < laying_.pieces.size(); ++i) {
            const Piece& piece = laying_.pieces[i];
            if (piece.number > 0 && !taken[piece.field].insert(piece.number).second)
                complain(*rows_[i], "number",
                         fmt::format(
                             "found {} again in {}, expected a number of its own, or none for the next free "
                             "one",
                             piece.number, rows_[i]->field));
        }
        for (Piece& piece : laying_.pieces)
            if (piece.number == 0) {
                auto& of_field = taken[piece.field];
                piece.number = of_field.empty() ? 1 : *of_field.rbegin() + 1;
                of_field.insert(piece.number);
            }
    }

    void tell_overlaps() {
        std::vector<const Ring*> outlines;
        for (const SetStone& set : laying_.stones) outlines.push_back(&set.footprint_mm);
        for (const Piece& piece : laying_.pieces) outlines.push_back(&piece.outline_mm);
        const auto name = [&](std::size_t i) {
            if (i < laying_.stones.size()) return piece_id("", static_cast<std::uint32_t>(i + 1));
            const Piece& piece = laying_.pieces[i - laying_.stones.size()];
            return piece_id(layout_.fields[piece.field].name, piece.number);
        };
        const auto all = overlaps(outlines, kOverlapTolerance_mm);
        for (std::size_t k = 0; k < std::min(all.size(), kMostOverlapsTold); ++k) {
            Problem problem;
            if (all[k].second >= laying_.stones.size()) {
                const PieceRow& row = *rows_[all[k].second - laying_.stones.size()];
                problem.place = row.place;
                problem.key = row.key;
            } else {
                problem.place = laying_.stones[all[k].second].stone.place;
            }
            problem.text =
                fmt::format("{} and {} overlap by {:.2f} mm2 at [{:.1f}, {:.1f}] mm", name(all[k].first),
                            name(all[k].second), all[k].area_mm2, all[k].at_mm.x, all[k].at_mm.y);
            laying_.warnings.push_back(to_string(problem));
        }
        if (all.size() > kMostOverlapsTold)
            laying_.warnings.push_back(
                fmt::format("{}: and {} more overlaps", layout_.pieces_file, all.size() - kMostOverlapsTold));
    }

    const Layout& layout_;
    double plane_mm_;
    std::map<std::string, std::uint32_t> fields_;
    Laying laying_;
    std::vector<const PieceRow*> rows_;  // of the pieces
    std::vector<Problem> problems_;
};

}  // namespace

Laying take_listed_pieces(const Layout& layout) {
    Taker taker(layout);
    for (const PieceRow& row : layout.piece_rows) taker.take(row);
    return taker.finish();
}

}  // namespace rakelight
