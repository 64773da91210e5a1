// The sheet of tonal studies: eight pictures of the panel, those of the reference, and the tones of its
// fields.
#pragma once

#include <string>

#include "output/study/study.h"

namespace rakelight {

inline constexpr double kStudy_px_per_mm = 8;

/// `title` and `light`: in its head; `program`: name and version, in its last line.
Print study_sheet(const Study& study, const std::string& title, const std::string& light,
                  const std::string& program);

}  // namespace rakelight
