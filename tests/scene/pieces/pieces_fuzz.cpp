// Fuzz target: whatever the bytes, a piece table ends in pieces or a LayoutError. What begins with a brace is
// taken for JSON, all else for CSV.
#include <cstddef>
#include <cstdint>

#include "scene/model/layout.h"
#include "scene/pieces/listed_pieces.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/fuzz_file.h"

namespace {

constexpr const char* kLayout =
    "panel: {name: Shelf, size: [120, 80]}\n"
    "fields:\n"
    "  - {name: sun, outline: [[70, 20], [110, 20], [90, 60]], opus: musivum, piece: 8, joint: 1, mix: "
    "coral}\n"
    "  - {name: sea, opus: tessellatum, piece: 12, joint: 2, mix: {slate: 60 %, aqua: 40 %}}\n"
    "stones: [{material: pumice, at: [25, 25], size: [34, 30, 26], proud: 20}]\n";

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const bool json = size > 0 && data[0] == '{';
    try {
        const auto file = rakelight::test::fuzz_file(data, size, json ? ".json" : ".csv");
        rakelight::take_listed_pieces(rakelight::read_layout_text(kLayout, "fuzz.yaml", file));
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
