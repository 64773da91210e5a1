// The picture of a panel in a photograph of its wall, as files.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "output/film/json_head.h"
#include "output/in_photograph/make.h"

namespace rakelight {

/// Of the layout and what it is read with (`sources`, as of source_hash), the photograph, its mask, and the
/// program. \throws RequestError when a file can no longer be read.
std::uint64_t hash_in_photograph(const TakenPhotograph& taken, std::uint64_t sources);

/// Writes NAME.png and NAME.json. \return their paths. \throws OutputError; then nothing half-written is
/// left.
std::vector<std::filesystem::path> deliver_in_photograph(const PrintInPhotograph& made,
                                                         const TakenPhotograph& taken,
                                                         const std::string& panel, const MadeFrom& from,
                                                         const std::filesystem::path& folder);

/// Whether the files of that hash are there, whole.
bool is_in_photograph_finished(const TakenPhotograph& taken, std::uint64_t hash,
                               const std::filesystem::path& folder);

/// The JSON.
std::string in_photograph_json(const PrintInPhotograph& made, const TakenPhotograph& taken,
                               const std::string& panel, const MadeFrom& from,
                               const std::vector<std::string>& files);

}  // namespace rakelight
