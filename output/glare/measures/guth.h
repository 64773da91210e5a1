// Where in the field of view a source disturbs: Guth's position index, as the fit of Levin (1975, J. Illum.
// Eng. Soc. 4(2), 99), for sources above the line of sight; below it those at the same angles are taken, for
// want of better: CIE 117 knows no others.
#pragma once

#include <glm/glm.hpp>

namespace rakelight {

/// `from_upright_deg`: angle from the vertical of the plane that holds the source and the line of sight, 0 to
/// 90 (the sign does not matter). `from_sight_deg`: angle of the source from the line of sight, 0 to 90.
/// \return 1 on the line of sight, more away from it.
double position_index(double from_upright_deg, double from_sight_deg);

/// The same of a source in direction `source`, seen by an eye that looks along `sight` with its head upright
/// about `up`. All unit.
double position_index(const glm::dvec3& source, const glm::dvec3& sight, const glm::dvec3& up);

}  // namespace rakelight
