// Reads a drawing from an SVG 1.1 file, as any vector editor writes it. Shapes, paths, groups, transforms,
// viewports, `use` and units are honoured; what is not understood is left out and told, never in silence.
// Source: W3C, "Scalable Vector Graphics (SVG) 1.1 (Second Edition)", 2011.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "scene/model/drawing.h"

namespace rakelight {

/// Limits of a drawing; more is refused. All of them together hold a drawing to a few seconds and some
/// 300 MiB.
inline constexpr std::size_t kMostDrawnElements = 200'000;  ///< elements met, those met again by `use` too
inline constexpr std::size_t kMostDrawnPoints = 2'000'000;  ///< of all chains, before thinning
inline constexpr int kMostDrawnDepth = 100;                 ///< groups within groups

struct SvgOptions {
    double width_mm = 0;  ///< of the page; 0 = as the file says
    double tolerance_mm = kDrawnTolerance_mm;
};

/// `file` only names the text in messages. Groups are those of the file; a `use` is a group too. Closed
/// subpaths, and open ones whose ends meet within the tolerance, are closed lines.
/// \throws LayoutError with what cannot be read, and where.
Drawing read_svg_text(std::string_view text, std::string file, const SvgOptions& options = {});

/// The same from a file; its size is looked at first.
Drawing read_svg(const std::filesystem::path& path, const SvgOptions& options = {});

}  // namespace rakelight
