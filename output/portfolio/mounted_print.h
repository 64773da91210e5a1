// A picture with its caption under it on white paper, and the words that keep it from being taken for a
// photograph.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "output/print/develop.h"

namespace rakelight {

inline constexpr const char* kNotAPhotograph = "Rendering, not a photograph";
/// The same of a picture that is in part one.
inline constexpr const char* kSetIntoAPhotograph = "A photograph with a rendering set in";

/// The picture above a strip of paper 8 mm high with `caption` at the left and at the right what it is.
Print mounted(const Print& picture, const std::string& caption, double px_per_mm,
              const std::string& what = kNotAPhotograph);

/// The picture of a file that holds a mounted print, without its strip; null unless there is such a file, its
/// picture has this size and it carries this scene hash.
std::optional<Print> picture_of_print(const std::filesystem::path& path, int width_px, int height_px,
                                      std::uint64_t scene_hash);

}  // namespace rakelight
