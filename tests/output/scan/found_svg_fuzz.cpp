// Fuzz target: whatever the bytes, what a kept drawing says of how it was found is understood or passed over.
#include <cstddef>
#include <cstdint>
#include <string>

#include "output/scan/found_svg.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    rakelight::how_found({reinterpret_cast<const char*>(data), size});
    rakelight::how_found("<metadata id=\"scan\">" + std::string(reinterpret_cast<const char*>(data), size) +
                         "</metadata>");
    return 0;
}
