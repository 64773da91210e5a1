// Fuzz target: whatever the bytes, reading a drawing ends in a drawing or a LayoutError.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "scene/drawing/svg/reader.h"
#include "scene/text/diagnostics.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        rakelight::read_svg_text({reinterpret_cast<const char*>(data), size}, "fuzz.svg");
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
