// The tones of what was laid, as a picture shows them: mean lightness of each field and how far its pieces
// differ, what its accents do to it, and from how far they are seen.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "output/film/film_file.h"

namespace rakelight {

/// Of the layout that a picture was made of.
struct StudiedFields {
    std::vector<std::string> names;
    std::vector<std::uint32_t> field_of_piece;      ///< by piece number less 1
    std::vector<std::vector<std::string>> accents;  ///< materials of each field's accents
};

/// What accents do: a few pieces that should wake a field up and leave its tone alone.
struct AccentTone {
    std::string material;
    std::size_t pieces = 0;  ///< that the picture shows
    double moves_l = 0;      ///< mean L* of the field with it, less that without
    double seen_to_m =
        0;  ///< farthest of some distances from which CIEDE2000 3 is left between it and the rest
};

struct FieldTone {
    std::string name;
    std::size_t pieces = 0;
    Lab mean;             ///< of its pieces, relative to a white in the light on the panel
    double spread_l = 0;  ///< standard deviation of the pieces' mean L*
    std::vector<AccentTone> accents;
};

/// Distances at which accents are looked at, m.
inline constexpr double kAccentDistances_m[] = {1, 2, 3, 5, 8, 12, 18, 27, 40};

/// Fields of which the picture shows pieces, in the order of the layout. `mm_per_px`: at the panel.
std::vector<FieldTone> field_tones(const NotedFilm& noted, const StudiedFields& laid, double mm_per_px);

}  // namespace rakelight
