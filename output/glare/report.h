// What a client should know of glare at one viewpoint: figures, the limits they are held against, and words.
#pragma once

#include <string>
#include <vector>

#include "output/glare/measures/field_contrast.h"
#include "output/glare/measures/panel_glare.h"
#include "output/glare/measures/unified_glare.h"

namespace rakelight {

/// One figure and what is thought of it.
struct GlareFinding {
    std::string what;
    std::string value;
    std::string limit;  ///< what it is held against, with "limit" or "usual"; empty = nothing
    bool bothers = false;
};

/// A bright patch in the panel's own terms.
struct NamedPatch {
    BrightPatch patch;
    std::string lamps;   ///< lamp, window or group that it mirrors
    std::string field;   ///< empty on a placed stone
    glm::dvec2 at_mm{};  ///< on the panel, of the piece that sends most of it
};

/// A lamp or window that the rating counts.
struct NamedSource {
    std::string name;
    GlareSource source;
};

struct GlareReport {
    std::string panel;
    std::string viewpoint;
    std::string light;    ///< set-up of light; empty = the layout's own
    bool in_view = true;  ///< whether any of the panel is seen
    GlareLimits limits;
    PanelGlare glare;
    std::optional<double> rating;          ///< UGR
    double background_cd_per_m2 = 0;       ///< indirect light at the eye over pi
    std::vector<NamedSource> sources;      ///< of the rating, the most disturbing first
    std::vector<std::string> lamps;        ///< names of the lamp groups
    std::optional<NamedPatch> largest;     ///< of PanelGlare::patches
    std::vector<NamedPatch> marks;         ///< the first of PanelGlare::marks, at most `kMostNamed`
    std::vector<std::string> field_names;  ///< of PanelGlare::fields
    std::vector<FieldContrast> contrasts;
    std::vector<GlareFinding> findings;
    std::string verdict;  ///< one sentence
};

inline constexpr std::size_t kMostNamed = 9;

/// Writes findings and verdict from what else the report holds.
void judge(GlareReport& report);

/// Whether anything in it would be complained of; and whether anything that the panel itself does: a patch
/// too large, a field veiled.
bool bothers(const GlareReport& report);
bool panel_bothers(const GlareReport& report);

/// Whether its largest patch is over the limit of size and stands out in the view.
bool patch_bothers(const GlareReport& report);

}  // namespace rakelight
