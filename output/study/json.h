// Tonal studies for machines: study-PICTURE.json.
#pragma once

#include <string>
#include <vector>

#include "output/film/json_head.h"
#include "output/study/study.h"

namespace rakelight {

/// JSON text, "checksums" left out. `picture`: its name; `light`: the set-up it was made in, empty = its own.
std::string study_json(const Study& study, const std::string& picture, const std::string& light,
                       const MadeFrom& from, const std::vector<std::string>& files);

}  // namespace rakelight
