// index.html: every picture of a folder on one page that opens from disk, needs no network and nothing beside
// it. Lamps of pictures with a film can be dimmed; cells of a board can be laid over each other.
#pragma once

#include <filesystem>
#include <string>

#include "output/web/embedded_picture.h"
#include "output/web/run_folder.h"

namespace rakelight {

struct WebPageLimits {
    int mixing_side_px = 1000;  ///< pictures whose lamps can be dimmed are shrunk to this
    PictureLimits still;        ///< all others
};

/// The page as text; files are read from `folder`. The same files give the same bytes.
/// \throws RequestError naming the picture, film or board that is damaged.
std::string web_page(const RunFolder& run, const std::filesystem::path& folder, const std::string& program,
                     const WebPageLimits& limits = {});

/// Writes index.html into a folder of finished files and returns its path.
/// \throws RequestError as `web_page` and when there is nothing to show, OutputError; then nothing is
/// written.
std::filesystem::path write_web_page(const std::filesystem::path& folder, const std::string& program,
                                     const WebPageLimits& limits = {});

}  // namespace rakelight
