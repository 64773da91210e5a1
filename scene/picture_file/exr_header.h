// The headers of an OpenEXR file, walked before its library is let in: it takes as much memory as an
// attribute says that it is long. Source: OpenEXR File Layout, openexr.com.
#pragma once

#include <filesystem>

namespace rakelight {

/// Whether every attribute of every header lies within the file and is as long as its type says, and every
/// channel is of a kind that there is. False as well for what is no OpenEXR file.
bool headers_fit(const std::filesystem::path& path);

}  // namespace rakelight
