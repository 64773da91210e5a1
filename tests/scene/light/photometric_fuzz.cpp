// Fuzz target: whatever the bytes, reading a photometric file ends in one or a LayoutError.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "scene/light/photometric_file.h"
#include "scene/text/diagnostics.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        rakelight::read_photometric_text({reinterpret_cast<const char*>(data), size}, "fuzz.ies");
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
