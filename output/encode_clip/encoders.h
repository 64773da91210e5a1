// What makes a file of frames.
#pragma once

#include <string>
#include <vector>

namespace rakelight {

struct ClipFile {
    std::vector<std::string> frames;  ///< files, in order, all of one size
    int frames_per_s = 24;
    int shrink = 1;  ///< each pixel of the clip the mean of so many, each way
    std::string into;
};

/// MP4 with H.264 (ISO/IEC 14496-10) in 4:2:0, ITU-R BT.709; the head stands first, so that it plays while it
/// loads. The same frames give the same bytes: one thread, no times, no names of libraries. Width and height
/// must be even. \throws std::runtime_error.
void write_mp4(const ClipFile& clip);

/// Animated WebP that plays for ever. \throws std::runtime_error.
void write_webp(const ClipFile& clip);

}  // namespace rakelight
