// Reading pictures of light from all round.
#pragma once

#include <filesystem>
#include <memory>

#include "scene/surround/all_round.h"

namespace rakelight {

/// As wide as a picture is kept: wider ones are shrunk by whole numbers, their light kept.
inline constexpr int kMostSurroundWidth_px = 4096;
/// Larger files are refused, in pixels.
inline constexpr long long kMostSurroundPixels = 40'000'000;

/// Reads an equirectangular picture, EXR or Radiance HDR; PNG, JPEG and TIFF, or whole numbers in any file,
/// as cut off. Primaries are converted (EXR chromaticities, Radiance PRIMARIES), negative light counts as
/// none, exposure that a Radiance file names is undone; `unit_cd_per_m2` is the whiteLuminance of an EXR.
/// \throws std::runtime_error "found X, expected Y", of a file as of a picture.
SurroundPicture read_surround_picture(const std::filesystem::path& path);

/// The same, cut into patches; the one of before while anybody holds it and the file has not changed.
/// \throws std::runtime_error as read_surround_picture.
std::shared_ptr<const AllRound> read_all_round_picture(const std::filesystem::path& path);

}  // namespace rakelight
