// Coordinate systems of SVG 1.1, chapter 7: transform lists (7.6), and how a viewBox is fitted into a
// viewport (7.7, 7.8).
#pragma once

#include <2geom/affine.h>
#include <2geom/rect.h>

#include <optional>
#include <string_view>

namespace rakelight {

/// The transform that a `transform` attribute stands for, all kinds of 7.6; identity when empty, none when it
/// is not a transform list.
std::optional<Geom::Affine> read_svg_transform(std::string_view text);

/// A `viewBox`: none when it is not four numbers, or its width or height is not above zero.
std::optional<Geom::Rect> read_svg_view_box(std::string_view text);

/// From the coordinates of a viewBox to those its viewport is placed in, by a `preserveAspectRatio` (empty =
/// xMidYMid meet; one that is not understood counts as empty).
Geom::Affine fit_view_box(const Geom::Rect& view_box, const Geom::Rect& viewport, std::string_view preserve);

}  // namespace rakelight
