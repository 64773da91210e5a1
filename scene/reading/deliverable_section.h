// The parts of a layout file that say what is to be made of the panel, not what it is: each command reads its
// own, so that a mistake in a board does not keep anybody from a preview.
#pragma once

#include <array>
#include <functional>
#include <string_view>

#include "scene/reading/layout_reader.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Keys at the top of a layout file that the reader of the layout leaves to the commands.
inline constexpr std::array<std::string_view, 6> kDeliverableKeys{"board",    "glare", "portfolio",
                                                                  "take-off", "zones", "hanging"};

/// Calls `read` with the section under `key` of what `layout` was read from, or with an empty one when there
/// is none, so that defaults and required keys are handled in one place; keys that `read` did not ask for are
/// reported. \return whether the file has the key. \throws LayoutError with all the problems of the section.
bool read_deliverable(const Layout& layout, std::string_view key, const std::function<void(Section&)>& read);

/// The same from a tree; `file_name` stands for the file in messages.
bool read_deliverable(const YamlValue& document, std::string file_name, std::string_view key,
                      const std::function<void(Section&)>& read);

}  // namespace rakelight
