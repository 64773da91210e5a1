// Four corners in a photograph.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <optional>
#include <string_view>

namespace rakelight {

class Section;

/// The key `corners`: pixels of the upper left, upper right, lower right and lower left corner of what lies
/// in a photograph, round a quadrilateral that bulges outwards. None where it is not there or wrong, which is
/// then a problem of the section. `or_else` is what else the key takes, for the message.
std::optional<std::array<glm::dvec2, 4>> read_corners(Section& in, std::string_view or_else = "");

}  // namespace rakelight
