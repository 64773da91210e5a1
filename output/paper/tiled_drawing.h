// A drawing at 1:1 on as many sheets of office paper as it takes: they overlap, register on crosses, and each
// proves its own scale with a bar of 100 mm in either direction. Mirrored drawings say so in huge letters.
#pragma once

#include "output/paper/paper_size.h"
#include "output/paper/tracing.h"
#include "scene/geometry/region.h"

namespace rakelight {

struct TiledDrawing {
    Tracing whole;                         ///< the panel's upper left corner is its origin, y down, 1:1
    glm::dvec2 panel_mm{0};                ///< width and height
    Box part_mm;                           ///< of `whole`, that has to be on paper
    std::string title;                     ///< large, on every sheet
    std::string badge;                     ///< a word or number in a box beside it; may be empty
    std::vector<std::string> notes;        ///< how to use it, at the foot of every sheet; at most four lines
    std::string source;                    ///< small, at the foot
    std::vector<std::string> what_counts;  ///< layers without which a sheet is left out; empty = any
    bool mirrored = false;                 ///< `whole` is already mirrored; sheets say so
};

/// Where the windows of the sheets lie in the whole drawing, from the upper left, row by row.
struct SheetGrid {
    int across = 1;
    int down = 1;
    glm::dvec2 window_mm{0};
    glm::dvec2 first_mm{0};  ///< upper left corner of the first window
    glm::dvec2 step_mm{0};
    Box window(int column, int row) const {
        const glm::dvec2 low = first_mm + step_mm * glm::dvec2(column, row);
        return {low, low + window_mm};
    }
};

/// The paper is turned whichever way takes fewer sheets.
struct SheetPlan {
    PaperSize paper;
    SheetGrid grid;
};
SheetPlan plan_sheets(const Box& part_mm, const PaperSize& paper, double overlap_mm);

/// One page a sheet; sheets on which nothing that counts is drawn are left out.
std::vector<Tracing> tiled_pages(const TiledDrawing& drawing, const PaperSize& paper, double overlap_mm);

/// The whole on one sheet, however large, with the same bars and words: for a plotter, or a vector editor.
Tracing one_sheet(const TiledDrawing& drawing);

/// Seen from behind: shapes mirrored, words still to be read, at the mirrored places.
Tracing mirrored(Tracing drawing, double width_mm);

inline constexpr double kCheckBar_mm = 100;

}  // namespace rakelight
