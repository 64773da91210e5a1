// The record of a clip.
#pragma once

#include <string>
#include <vector>

#include "output/clip/make.h"
#include "output/film/json_head.h"

namespace rakelight {

/// `light`: set-up of light; empty for the layout's own.
std::string clip_json(const ClipWork& work, const MadeFrames& made, const std::string& panel,
                      const std::string& light, const MadeFrom& from, const std::vector<std::string>& files);

}  // namespace rakelight
