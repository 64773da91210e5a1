// Names of files that commands write beside the pictures of a layout, so that no picture takes one of them.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace rakelight {

/// The command whose files a picture of this stem (`file_stem`) would overwrite.
std::optional<std::string_view> owner_of_stem(std::string_view stem);

/// \throws RequestError when files of two of these names would be one. `what` they are: "set-ups of light".
void check_file_names(std::span<const std::string> names, std::string_view what);

/// The same of the names of pictures. \throws RequestError also when one would be another command's.
void check_picture_names(std::span<const std::string> names);

}  // namespace rakelight
