// Name and version of the program.
#pragma once

#include <string>

namespace rakelight {

/// Name and version, as files carry it.
inline const std::string kProgram = "rakelight " RAKELIGHT_VERSION;

/// Where finished files go unless told otherwise.
inline const std::string kFinishedFolder = "renders";

}  // namespace rakelight
