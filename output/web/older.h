// Which files of a folder were made before their layout was last changed.
#pragma once

#include <filesystem>
#include <string>

#include "output/web/run_folder.h"

namespace rakelight {

struct Layout;

/// Marks pictures and boards that are older than the layout file or one of those it is read with. What has
/// the scene hash of the layout as it is now is not older, whatever its date says: a file may be copied, or
/// written anew as it was. `program`: name and version that hashes are made with.
void mark_older(RunFolder& run, const std::filesystem::path& folder, const Layout& layout,
                const std::string& program);

}  // namespace rakelight
