// Checksums by which damage on disk is known: XXH3 of 128 bits (Collet, xxHash), as 32 hexadecimal digits.
// They find flipped bits, not forgery.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "renderer/film.h"

namespace rakelight {

inline constexpr std::size_t kChecksumDigits = 32;

/// Of some bytes.
std::string checksum(std::string_view bytes);

/// Of the bytes of a file. \throws RequestError when it cannot be read.
std::string file_checksum(const std::filesystem::path& path);

/// Of each of the rows that a film holds, one after another without anything between: of the bits of all that
/// a file keeps of the row, part by part (film_channels.h) and pixel by pixel. Those of two halves joined are
/// those of the whole.
std::string row_checksums(const Film& film);

}  // namespace rakelight
