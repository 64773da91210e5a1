// What the parts of the critic share.
#pragma once

#include "scene/faults/faults.h"
#include "scene/faults/near_edges.h"
#include "scene/geometry/region.h"

namespace rakelight {

struct Field;

/// Everything that is asked of a panel, gathered once.
struct SeenPanel {
    const Layout& layout;
    const Laying& laying;
    const std::vector<Region>& ground;  ///< of each field, plan_regions
    const NearEdges& edges;
    std::vector<double> mean_mm2;  ///< of each field's pieces
    double coarsest_mm = 0;        ///< longest side of a whole piece of any field
};

/// Whether a field's pieces stand in rows.
bool has_rows(const Field& field);
/// The narrower side of a whole piece; of stones of sizes, that of the smallest.
double narrow_mm(const Field& field);

/// Small pieces, short sides, hollows.
void add_piece_faults(const SeenPanel& seen, std::vector<Fault>& faults);
/// Row ends in mid-field, rows too short, wedges. \return the tightest wedge, degrees
double add_row_faults(const SeenPanel& seen, std::vector<Fault>& faults);
/// Joints too wide, crossings, gaps beside stones. \return the area that is too wide, mm2
double add_joint_faults(const SeenPanel& seen, std::vector<Fault>& faults);

}  // namespace rakelight
