// A picture file, opened by the reader of its kind alone.
#pragma once

#include <OpenImageIO/imageio.h>

#include <cstdint>
#include <filesystem>
#include <initializer_list>
#include <memory>
#include <string_view>

namespace rakelight {

/// Opens a picture by the reader of the kind that its first bytes say (picture_kind.h), and by no other: a
/// damaged file is never handed to readers that nobody thinks of. Nothing of the pixels is read. `wish` goes
/// to the reader. `kinds` are those that are taken, all if there are none; `expected` says so to the user
/// ("PNG, JPEG or TIFF"). Throws std::runtime_error ("found ..., expected ...") where there is no such file,
/// none of these kinds, a damaged head, or a picture in layers.
std::unique_ptr<OIIO::ImageInput> open_picture(const std::filesystem::path& path, std::string_view expected,
                                               std::initializer_list<std::string_view> kinds = {},
                                               const OIIO::ImageSpec& wish = {});

/// Throws std::runtime_error unless a picture has at least `least_px` pixels on each side and at most `most`
/// of four channels in all: to be asked before memory is taken for them.
void check_size(const OIIO::ImageInput& in, int least_px, std::int64_t most);

}  // namespace rakelight
