// How long a picture will take, told from a small one.
#pragma once

#include <string>
#include <string_view>

#include "renderer/render.h"

namespace rakelight {

/// Seconds that tracing the rows of `options`, or the whole picture, takes on this machine: the same picture
/// in some four thousand pixels is traced, and each of its pixels taken for as slow as one of the picture's
/// own, as far as their grain does (common practice, no published source). Arguments and exceptions as of
/// `render`.
double expected_seconds(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
                        RenderOptions options);

/// How a line begins that says how long tracing will take.
inline constexpr std::string_view kTracing = "Tracing ";

/// "40 s", "12 min" or "1.5 h".
std::string spoken_seconds(double seconds);

}  // namespace rakelight
