// A print as a PNG file.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "output/print/develop.h"

namespace rakelight {

/// Lines of text in the file: key and value.
using PictureText = std::vector<std::pair<std::string, std::string>>;

enum class PrintDepth { bits8 = 8, bits16 = 16 };

/// A print of which some rows are made at a time.
struct PrintRows {
    int width = 0;
    int height = 0;
    std::vector<RowRange> bands;  ///< top to bottom, without gaps
    std::function<std::vector<float>(const RowRange& rows)> rgb;
};

/// Writes a PNG marked as sRGB with `text` in it. The same print gives the same bytes: no times, no paths.
/// `dpi`: for paper; the file then says how large it prints and carries the sRGB profile.
/// \throws OutputError; then nothing is left.
void write_png(const std::filesystem::path& path, const Print& print, const PictureText& text,
               PrintDepth depth = PrintDepth::bits8, std::optional<int> dpi = {});

/// The same bytes from rows that are made band by band.
void write_png(const std::filesystem::path& path, const PrintRows& print, const PictureText& text,
               PrintDepth depth = PrintDepth::bits8, std::optional<int> dpi = {});

}  // namespace rakelight
