// Metadata of a film: what has to travel with it so that it can be developed, recorded and joined with its
// other parts later, on another machine and without the layout.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"

namespace rakelight {

/// Where the sun of a clear sky stands.
struct NotedSun {
    double altitude_deg = 0;  ///< above the horizon
    double aside_deg = 0;  ///< from straight before the panel's wall, positive to the right as one faces it
    friend bool operator==(const NotedSun&, const NotedSun&) = default;
};

struct PictureNotes {
    std::string program;      ///< name and version of what rendered it
    std::string panel;        ///< name of the panel
    std::string layout_file;  ///< file name without folders
    std::string picture;
    std::string light;                 ///< the set-up of light; empty = the layout's own
    std::uint64_t scene_hash = 0;      ///< see scene_hash.h
    std::vector<Xyz> illuminance_xyz;  ///< mean on the panel for each lamp group of the film, Y in lux
    std::optional<double> ev;          ///< stated exposure value at ISO 100; none = by rule
    std::string exposure_rule;         ///< grey-card or adapted
    double pixel_deg = 0;              ///< angle that a pixel in mid-picture is seen under
    double wanted_error = 0;           ///< relative
    int most_samples = 0;
    std::optional<NotedSun> sun;  ///< none: an overcast sky, or no window
    friend bool operator==(const PictureNotes&, const PictureNotes&) = default;
};

/// Illuminance on the panel of all lamp groups together.
Xyz total_illuminance_xyz(const PictureNotes& notes);

}  // namespace rakelight
