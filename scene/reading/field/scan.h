// `drawing: {scan: ...}`: a drawing on paper, photographed or scanned. Reading a layout starts no other
// program and writes nothing: lines are found beforehand (output/scan) and kept as an SVG file beside the
// scan, sealed with what they were found from. This is what both sides agree on.
#pragma once

#include <array>
#include <filesystem>
#include <glm/glm.hpp>
#include <optional>
#include <string>

#include "scene/text/yaml_reader.h"

namespace rakelight {

struct ScanSaid {
    std::filesystem::path scan;  ///< as seen from the working folder
    Place place;
    std::optional<glm::dvec2> paper_mm;  ///< width, height; none = the printed sheet's frame
    std::optional<std::array<glm::dvec2, 4>>
        corners_px;       ///< upper left, upper right, lower right, lower left
    bool whole = false;   ///< the paper fills the picture
    double width_mm = 0;  ///< on the panel; 0 = as on the paper
    double gap_mm = 2;    ///< on the paper, like the rest
    double speck_mm = 3;
    std::string ink = "black";  ///< of outlines
};

/// Reads the keys of a scan from the section of the drawing and finishes it. None when something was
/// reported.
std::optional<ScanSaid> read_scan(Section& drawing);

/// Where the found drawing is kept: `page.jpg` has `page-found.svg` beside it.
std::filesystem::path found_beside(const std::filesystem::path& scan);

/// 16 hexadecimal digits of the scan's bytes and of all that was said of how to find lines in it. Empty when
/// the scan cannot be read.
std::string scan_key(const ScanSaid& said);

/// What a kept drawing says of itself in its first line.
struct KeptScan {
    std::string key;      ///< of what it was found from; empty when it says nothing
    bool edited = false;  ///< changed since it was written
};
KeptScan kept_scan(const std::string& text);

/// The text of a kept drawing: a first line, then `svg`.
std::string keep_scan(const std::string& key, const std::string& svg);

}  // namespace rakelight
