// Follows path data and leaves chains of straight parts on the panel. lib2geom reads the grammar of SVG 1.1,
// 8.3, and resolves arcs after its appendix F.6; Bezier curves are split evenly by Wang's bound on the
// distance between a cubic and its chords (Wang 1984, as in Goldman, "Pyramid Algorithms", 2003), arcs by the
// sagitta of their longer half-axis.
#pragma once

#include <2geom/affine.h>
#include <2geom/path-sink.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "scene/model/drawing.h"

namespace rakelight {

/// Why path data cannot be drawn: the text that follows "found".
class PenError : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A sink for lib2geom's path parser. Once a coordinate is off the map, or more than `most_points` were made,
/// it draws no more and says so at the end: the parser loses memory when a move throws.
class Pen final : public Geom::PathSink {
  public:
    /// `to_panel` leads from the coordinates of the moves to panel millimetres.
    Pen(const Geom::Affine& to_panel, double tolerance_mm, std::size_t most_points);

    void moveTo(const Geom::Point& p) override;
    void lineTo(const Geom::Point& p) override;
    void curveTo(const Geom::Point& c0, const Geom::Point& c1, const Geom::Point& p) override;
    void quadTo(const Geom::Point& c, const Geom::Point& p) override;
    void arcTo(double rx, double ry, double angle, bool large_arc, bool sweep, const Geom::Point& p) override;
    void closePath() override;
    void flush() override;

    /// The chains so far, thinned to the tolerance. A chain whose ends meet is closed, drawn so or not; one
    /// of a single point is none.
    std::vector<DrawnLine> take_lines();
    std::size_t points_made() const { return made_; }
    /// Commands drawn since the pen was made, for messages.
    std::size_t commands() const { return commands_; }

  private:
    /// \return whether to go on.
    bool begin();
    void put(const Geom::Point& p);
    glm::dvec2 on_panel(const Geom::Point& p) const;

    Geom::Affine to_panel_;
    double tolerance_mm_;
    std::size_t most_points_, made_ = 0, commands_ = 0;
    Geom::Point start_, at_;
    bool drawing_ = false;
    std::string problem_;
    std::vector<glm::dvec2> chain_;
    std::vector<DrawnLine> lines_;
};

}  // namespace rakelight
