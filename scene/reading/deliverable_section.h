// The parts of a layout file that say what is to be made of the panel, not what it is: each command reads its
// own, so that a mistake in a board does not keep anybody from a preview.
#pragma once

#include <filesystem>
#include <functional>
#include <string_view>

#include "scene/reading/layout_reader.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Calls `read` with the section under `key`, one of keys::kDeliverables, of a layout file, or with an empty
/// one when the file has none, so that defaults and required keys are handled in one place; keys that `read`
/// did not ask for are reported. \return whether the file has the key. \throws LayoutError with all the
/// problems of the section.
bool read_deliverable(const std::filesystem::path& layout_file, std::string_view key,
                      const std::function<void(Section&)>& read);

/// The same from text; `file_name` stands for the file in messages.
bool read_deliverable_text(std::string_view text, std::string file_name, std::string_view key,
                           const std::function<void(Section&)>& read);

}  // namespace rakelight
