// A drawing on paper found before its layout is read: lines are looked for where the scan, or what the layout
// says of it, has changed since, and kept beside the scan (scene/reading/field/scan.h).
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>

#include "output/print/develop.h"
#include "output/scan/found_drawing.h"
#include "scene/model/layout.h"
#include "scene/reading/field/scan.h"

namespace rakelight {

/// What the layout says of its scan; none when it has none, or says it wrongly, which reading will tell.
/// \throws LayoutError as `read_layout` does of a file that is no layout.
std::optional<ScanSaid> scan_of(const std::filesystem::path& layout, std::span<const std::string> changes);

/// Finds and keeps the drawing where that is due. \return a sentence on what was found, for people; empty
/// when nothing was due. \throws LayoutError with what is wrong with the scan, or when a kept drawing that
/// was edited by hand would be lost; OutputError when it cannot be kept.
std::string prepare_scan(const std::filesystem::path& layout, std::span<const std::string> changes);

/// The picture of what was found, and of which field takes what; none when the layout has no scan. The layout
/// was read, so that the kept drawing is there. \throws LayoutError when the scan cannot be opened as a
/// picture.
std::optional<Print> picture_of_scan(const Layout& layout);

}  // namespace rakelight
