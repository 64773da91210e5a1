// The panel as laid, drawn face-on at 1:1 without light: pieces in their stock colours over their grout, or
// the net of the joints alone, which shows how the rows flow.
#pragma once

#include "output/lay/report.h"
#include "scene/faults/faults.h"
#include "scene/model/field.h"
#include "scene/model/panel.h"
#include "scene/text/shown_units.h"

namespace rakelight {

struct Layout;

/// What may be drawn over the pieces.
struct Overlays {
    bool guides = false;    ///< the andamento lines of the layout, and its breaks
    bool outlines = false;  ///< the fields' outlines
    bool names = false;     ///< the fields' names, each where its field is roomiest
    const LayingFaults* faults =
        nullptr;  ///< a ring and a letter at each, with a key at the foot; null = none
};

/// Paths of pieces have ids FIELD.NUMBER, those of stones stones.NUMBER.
Tracing colour_drawing(const Layout& layout, const Laying& laying, const LayingReport& report,
                       const Overlays& overlays);

/// Joints black, pieces white, stones as outlines.
Tracing joint_drawing(const Layout& layout, const Laying& laying, const LayingReport& report,
                      const Overlays& overlays);

/// From panel millimetres (y up) to a sheet's (y down).
struct OnSheet {
    glm::dvec2 corner_mm{};  ///< where the panel's upper left corner lies on the sheet
    double height_mm = 0;    ///< of the panel
    double scale = 1;
    glm::dvec2 operator()(const glm::dvec2& p) const {
        return corner_mm + scale * glm::dvec2(p.x, height_mm - p.y);
    }
    Ring operator()(const Ring& ring) const {
        Ring out;
        out.reserve(ring.size());
        for (const auto& p : ring) out.push_back((*this)(p));
        return out;
    }
};

TracedShape shape_of(const Ring& ring, const OnSheet& place);
TracedShape shape_of(const Region& region, const OnSheet& place);

/// The ground of each field in the colour of its joints. A joint between two fields is of the one listed
/// first.
TracedLayer joint_layer(const Layout& layout, const LayingReport& report, const OnSheet& place);

/// The fields' names with a halo of paper, each where its field is roomiest; `type_mm` is the sheet's type.
TracedLayer name_layer(const std::vector<Field>& fields, const LayingReport& report, const OnSheet& place,
                       double type_mm);

/// A layer for each kind of fault there is, and last the key, whose first line stands at `foot_mm`.
std::vector<TracedLayer> fault_layers(const LayingFaults& faults, const OnSheet& place, double type_mm,
                                      const glm::dvec2& foot_mm);

/// The lines that say what a sheet is: panel, size, pieces; seed, file, scene hash, program.
std::string sheet_facts(const Layout& layout, const LayingReport& report);
std::string sheet_source(const Layout& layout, const LayingReport& report);

/// A scale bar that ends at `right_mm`, for a panel drawn at `scale`; about `wanted_mm` long on the sheet,
/// a round number of millimetres or inches.
void add_scale_bar(Tracing& drawing, const glm::dvec2& right_mm, double scale, double wanted_mm,
                   double type_mm, Units units = Units::metric);

}  // namespace rakelight
