// Fuzz target: whatever the bytes, a photograph of samples, of a drawing or sheet of marks, or of a panel is
// read whole or refused.
#include <cstddef>
#include <cstdint>
#include <stdexcept>

#include "output/compare/panel_photograph.h"
#include "output/marks/byte_picture.h"
#include "output/samples/photograph.h"
#include "output/system/errors.h"
#include "tests/support/fuzz_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rakelight;
    const auto file = test::fuzz_file(data, size, ".jpg");
    try {
        const Photograph photograph(file);
        photograph.pixel(photograph.size_px() - 1);
        photograph.exposure();
    } catch (const std::runtime_error&) {
    }
    try {
        read_byte_picture(file);
    } catch (const std::runtime_error&) {
    }
    try {
        read_panel_photograph(file);
    } catch (const RequestError&) {
    }
    return 0;
}
