// What `--version` prints.
#pragma once

#include <string>

namespace rakelight {

/// The program, the instruction set it is compiled for, the compiler, and the libraries it was built with.
std::string version_text();

}  // namespace rakelight
