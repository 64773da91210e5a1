// The numbers behind a samples sheet.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "output/samples/understand.h"

namespace rakelight {

/// `hash`: of the file of samples and its pictures; `files`: written beside it.
std::string samples_json(const SamplesReport& report, std::uint64_t hash,
                         const std::vector<std::string>& files);

}  // namespace rakelight
