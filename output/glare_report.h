// What a client should know of glare at one viewpoint: figures, the limits they are held against, and words.
#pragma once

#include <string>
#include <vector>

#include "output/panel_glare.h"

namespace rakelight {

/// One figure and what is thought of it.
struct GlareFinding {
    std::string what;
    std::string value;
    std::string limit;  ///< what it is held against; empty = nothing
    bool bothers = false;
};

/// A hot patch in the panel's own terms.
struct NamedPatch {
    HotPatch patch;
    std::string lamps;   ///< lamp group that it mirrors
    std::string field;   ///< empty on a placed stone
    glm::dvec2 at_mm{};  ///< on the panel, of the brightest piece
};

struct GlareReport {
    std::string panel;
    std::string viewpoint;
    GlareLimits limits;
    PanelGlare glare;
    std::optional<double> rating;          ///< UGR
    double background_cd_per_m2 = 0;       ///< of the whole view
    std::vector<NamedPatch> patches;       ///< the largest, at most `kMostNamed`
    std::vector<std::string> field_names;  ///< of PanelGlare::fields
    std::vector<GlareFinding> findings;
    std::string verdict;  ///< one sentence
};

inline constexpr std::size_t kMostNamed = 9;

/// Writes findings and verdict from what else the report holds.
void judge(GlareReport& report);

/// The report as JSON, versioned; every number of the sheet is in it.
std::string glare_json(const std::vector<GlareReport>& reports, const std::string& program,
                       const std::vector<std::string>& files);

}  // namespace rakelight
