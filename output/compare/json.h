// The numbers of a comparison: compare-PICTURE.json.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/compare/corrected.h"
#include "output/film/json_head.h"

namespace rakelight {

/// What was compared.
struct CompareNames {
    std::string photo, picture, light, white;
    std::optional<Corners> chart;  ///< in the photograph, where it was used
};

std::string compare_json(const Compared& compared, const CompareNames& names,
                         const std::vector<Correction>& corrections, const MadeFrom& from,
                         const std::vector<std::string>& files);

}  // namespace rakelight
