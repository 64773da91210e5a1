// Fuzz target: whatever the bytes, reading measured curves ends in curves or a LayoutError.
#include <cstddef>
#include <cstdint>

#include "scene/text/curve_file.h"
#include "scene/text/diagnostics.h"
#include "tests/support/fuzz_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    for (const std::size_t count : {1u, 3u}) try {
            rakelight::read_curves(rakelight::test::fuzz_file(data, size, ".csv"), count);
        } catch (const rakelight::LayoutError&) {
        }
    return 0;
}
