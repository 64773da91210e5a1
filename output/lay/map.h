// The numbered map: which piece goes where, on pages that lie side by side. Every piece carries its
// material's letter and its number within its field; the first page explains them.
#pragma once

#include "output/lay/report.h"

namespace rakelight {

struct Layout;

/// A page of paper, ISO 216, as it is turned.
struct MapPaper {
    std::string name = "A3";
    glm::dvec2 size_mm{297, 420};
};
/// A4 to A0 by name, letter case aside. \throws RequestError naming the nearest.
MapPaper paper_called(const std::string& name);

struct MapTile {
    std::string name;  ///< "sheet 1" and on, row by row from the upper left
    Box panel_mm;      ///< the part of the panel it shows
};

struct LayingMap {
    double scale = 1;  ///< of the sheets; 2 = twice life size
    MapPaper paper;
    std::vector<MapTile> tiles;
    std::size_t numbered = 0;            ///< pieces and stones whose number is legible
    std::vector<std::string> too_small;  ///< ids of the others
    std::vector<Tracing> pages;          ///< the key first, then a page a sheet
};

/// Type no smaller than this is legible at arm's length; common practice, no published source.
inline constexpr double kLeastType_mm = 1.7;

/// A scale in words: 2:1, 1:1, 1:2.
std::string scale_words(double scale);

/// A3 to A0.
std::vector<MapPaper> usual_papers();

/// The scale is the smallest of a few round ones at which 97 of 100 numbers fit their pieces legibly, as long
/// as that makes no more than 60 sheets; the paper the first of `papers` (not empty) that allows it, else the
/// last.
LayingMap make_map(const Layout& layout, const Laying& laying, const LayingReport& report,
                   const std::vector<MapPaper>& papers);

/// The pages that say what letters and numbers mean, with a plan of fields and sheets.
std::vector<Tracing> map_key(const Layout& layout, const Laying& laying, const LayingReport& report,
                             const LayingMap& map);

}  // namespace rakelight
