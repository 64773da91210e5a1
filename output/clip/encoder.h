// Frames made into a clip by a component of its own (output/encode_clip: FFmpeg's libraries, libwebp).
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace rakelight {

/// \throws RequestError saying which packages are missing where the component is not installed: to be asked
/// before hours of work.
void check_encoder();

/// Makes `into` (.mp4 or .webp by its ending) of frames; whole or not at all, by way of `by_way_of`, a name
/// on the same disk. `shrink`: each pixel the mean of so many frames' pixels, each way. \throws OutputError
/// with the encoder's own words, RequestError as above.
void encode_clip(const std::vector<std::string>& frames, int frames_per_s, int shrink,
                 const std::filesystem::path& by_way_of, const std::filesystem::path& into);

}  // namespace rakelight
