// What an artist has drawn, as plain values on the panel: named outlines and lines in named groups, whatever
// file they came from (svg/reader.h, colour_map.h, a scan).
#pragma once

#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// A chain of straight parts in panel millimetres, y up. A closed one does not repeat its first point.
struct DrawnLine {
    std::vector<glm::dvec2> points_mm;
    bool closed = false;
};

/// How a drawn thing may be called: by the label an editor shows for it, or by its id in the file.
struct DrawnName {
    std::string label;
    std::string id;
    const std::string& shown() const { return label.empty() ? id : label; }
};

/// A group or layer.
struct DrawnGroup {
    DrawnName name;
    int parent = -1;  ///< index in `Drawing::groups`, less than its own; -1 = the drawing itself
    Place place;
};

/// One path or shape. The ground of its closed lines is found by one rule for all of them together, so that a
/// compound path has holes.
struct DrawnPath {
    DrawnName name;
    int group = -1;         ///< index in `Drawing::groups`
    bool even_odd = false;  ///< ground where a point is enclosed an odd number of times, not where windings
                            ///< do not cancel (SVG 1.1, 11.3 `fill-rule`)
    bool unfilled = false;  ///< drawn as a line alone, `fill="none"`
    std::vector<DrawnLine> lines;
    Place place;
};

struct Drawing {
    std::string file;
    glm::dvec2 size_mm{};  ///< of the page, its lower left corner at 0, 0
    bool traced = false;   ///< from a map: outlines may touch themselves, and neighbours share theirs
    bool scanned = false;  ///< from paper: every group is a region, with its outline and the guides in it
    std::vector<DrawnGroup> groups;
    std::vector<DrawnPath> paths;
    std::vector<std::string> warnings;  ///< what was left out and why, each with its place
};

/// Distance that a drawn curve may stray from its chain, unless the layout says otherwise.
inline constexpr double kDrawnTolerance_mm = 0.05;

}  // namespace rakelight
