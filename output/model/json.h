// The record of a model for machines: sizes, counts, colours.
#pragma once

#include <string>
#include <vector>

#include "output/film/json_head.h"
#include "output/model/parts.h"

namespace rakelight {

/// `bytes`: size of the .glb.
std::string model_json(const Model& model, std::size_t bytes, const MadeFrom& from,
                       const std::vector<std::string>& files);

}  // namespace rakelight
