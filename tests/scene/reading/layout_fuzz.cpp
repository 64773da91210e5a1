// Fuzz target: whatever the bytes, reading a layout ends in a layout or a LayoutError.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const auto layout =
            rakelight::read_layout_text({reinterpret_cast<const char*>(data), size}, "fuzz.yaml");
        rakelight::summarise(layout);
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
