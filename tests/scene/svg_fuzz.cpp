// Fuzz target: whatever the bytes, reading a drawing ends in a drawing or a LayoutError.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "scene/diagnostics.h"
#include "scene/svg_reader.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        rakelight::read_svg_text({reinterpret_cast<const char*>(data), size}, "fuzz.svg");
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
