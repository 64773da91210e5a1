// What a job says of itself on its way, as lines of text: how far it is, and with `preview --dry-run` what it
// has to do. The other side of the lines that progress.h and `preview` write.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rakelight {

/// "straight: 40 %  about 2 min left".
struct JobProgress {
    std::string what;
    double share = 0;  ///< 0..1
};
std::optional<JobProgress> progress_in(std::string_view line);

/// "renders/tide/straight  1200x924  to render".
struct PlannedPicture {
    std::string folder;  ///< empty = the current one
    std::string stem;
    int width_px = 0;
    int height_px = 0;
    bool finished = false;
};
std::optional<PlannedPicture> picture_in(std::string_view line);

/// The line that `picture_in` reads. `state`: "finished", or words of one's own.
std::string picture_line(const std::string& path, int width_px, int height_px, std::string_view state);

}  // namespace rakelight
