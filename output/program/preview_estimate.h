// How long pictures would take: set-up measured once, tracing by a sample of each.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "renderer/film.h"
#include "scene/model/views.h"

namespace rakelight {

struct Layout;

struct EstimatedPicture {
    Picture picture;
    std::filesystem::path folder;
    std::string stem;
    RowRange rows;  ///< that would be rendered
    std::uint64_t scene_hash = 0;
    bool finished = false;  ///< nothing of it is to be done
    double trace_s = 0;     ///< of its rows, on this machine
};

struct PreviewEstimate {
    double set_up_s = 0;  ///< laying, the worlds and their metering; 0 = nothing to do
    std::vector<EstimatedPicture> pictures;
};

/// Lays, and traces each picture small. Its pixels take as long as those of the picture itself, as far as
/// their grain does: common practice, no published source.
PreviewEstimate estimate(const Layout& layout, std::vector<EstimatedPicture> pictures, int threads);

/// JSON "rakelight estimate".
std::string estimate_json(const PreviewEstimate& estimate, const Layout& layout);

}  // namespace rakelight
