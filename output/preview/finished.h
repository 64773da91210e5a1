// Whether a picture need not be rendered again.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "output/preview/printing.h"
#include "renderer/film.h"

namespace rakelight {

/// Whether STEM.png, STEM.exr and STEM.json of one and the same scene are there, printed as is
/// wanted. All three carry the scene hash: a run that was killed between two of them is not
/// finished. What is damaged is not finished either, and said.
bool is_finished(const std::filesystem::path& folder, const std::string& stem, std::uint64_t scene_hash,
                 const Printing& how = {});

/// Whether a file holds these rows of a picture of this scene.
bool is_part(const std::filesystem::path& file, std::uint64_t scene_hash, const RowRange& rows);

}  // namespace rakelight
