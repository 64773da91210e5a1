// Reading of outlines and guide lines, and the checks an outline must pass before anything is laid in it.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "scene/geometry/stroke.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Distance that a checked outline may stray from the drawn curve, and the most points it may have.
inline constexpr double kOutlineTolerance_mm = 0.05;
inline constexpr size_t kMostStrokePoints = 20'000;

/// Reads a list of points (straight), or a mapping with one of the keys of `table`: `smooth`, `straight` and
/// perhaps `closed smooth`, `closed straight`. Otherwise the stroke gets `closed`. \return none when anything
/// was wrong.
std::optional<Stroke> read_stroke(const YamlValue& value, const std::string& key, bool closed,
                                  const KeyTable& table, ProblemList& problems);

/// Reports an outline with too few points, that crosses itself, or that lies wholly off the panel.
/// \return the area on the panel, mm2; none when something was reported.
std::optional<double> check_outline(const Stroke& outline, glm::dvec2 panel_mm, const std::string& key,
                                    ProblemList& problems);

/// Reports a guide without length, or a closed one without room inside.
void check_guide(const Stroke& guide, const std::string& key, ProblemList& problems);

}  // namespace rakelight
