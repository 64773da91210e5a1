// Fuzz target: whatever the bytes, a file of samples is read or a LayoutError says why not.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "output/samples/sample_file.h"
#include "scene/text/diagnostics.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        rakelight::read_sample_text({reinterpret_cast<const char*>(data), size}, "fuzz.yaml");
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
