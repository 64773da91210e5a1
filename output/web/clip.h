// A clip on a page: it plays by itself, and the pointer drags the viewer along (browser/clip.js).
#pragma once

#include <filesystem>
#include <string>

namespace rakelight {

/// Whether a file is one that a page plays.
bool is_clip(const std::string& file);

/// The stage of a figure with the whole file in it. `name`: what it shows, for those who do not see it.
/// \throws RequestError when the file cannot be read.
std::string clip_stage(const std::filesystem::path& file, const std::string& name);

}  // namespace rakelight
