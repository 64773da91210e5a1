// index.html: every picture of a folder on one page that opens from disk, needs no network and nothing beside
// it. Lamps of pictures with a film can be dimmed; cells of a board can be laid over each other.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "output/web/embedded_picture.h"
#include "output/web/run_folder.h"

namespace rakelight {

struct WebPageLimits {
    int mixing_side_px = 1000;  ///< pictures whose lamps can be dimmed are shrunk to this
    PictureLimits still;        ///< all others
};

struct WebPageTask {
    WebPageLimits limits;
    bool linked = true;    ///< names of files are links to them, for whoever has the folder
    std::string proposal;  ///< a PDF that goes into the page, relative; empty = none
    std::function<void(double share)> progress;
    std::function<bool()> cancelled;
};

/// The page as text; files are read from `folder`. The same files give the same bytes.
/// \throws RequestError naming the picture, film or board that is damaged; Cancelled.
std::string web_page(const RunFolder& run, const std::filesystem::path& folder, const std::string& program,
                     const WebPageTask& task = {});

/// The page for a client: pictures as large as fit into `kMostClientBytes` all together, no links, nothing
/// beside it; the proposal goes in where it takes no more than half. \throws as `web_page`, and RequestError
/// when there is nothing for a client or it does not fit.
std::string client_page(RunFolder run, const std::filesystem::path& folder, const std::string& program,
                        const WebPageTask& task = {});

}  // namespace rakelight
