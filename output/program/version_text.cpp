#include "output/program/version_text.h"

#include <fmt/format.h>

#include "output/program/help_text.h"
#include "output/system/program.h"

namespace rakelight {

std::string version_text() {
    return fmt::format("{}\ninstruction set: x86-64-v3 (AVX2, FMA, BMI2)\ncompiler: {}\n{}", kProgram,
                       RAKELIGHT_COMPILER, wrapped("libraries: " RAKELIGHT_LIBRARIES, 78, 0, 2));
}

}  // namespace rakelight
