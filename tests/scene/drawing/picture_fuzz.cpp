// Fuzz target: whatever the bytes, a picture of flat colours ends in a drawing or a LayoutError, and so does
// a picture that a mix follows.
#include <cstddef>
#include <cstdint>
#include <fstream>

#include "scene/drawing/colour_map.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/fuzz_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto file = rakelight::test::fuzz_file(data, size, ".png");
    const std::vector<rakelight::MapColour> colours{{"sea", {31, 74, 90}, {}}, {"rock", {200, 200, 200}, {}}};
    try {
        rakelight::read_colour_map(file, colours, {600, 3});
    } catch (const rakelight::LayoutError&) {
    }
    try {
        const std::string layout =
            "panel: {name: Squall, size: [120, 80]}\n"
            "fields: [{name: sea, opus: tessellatum, piece: 12, joint: 2, mix: {picture: " +
            file.string() + ", from: [slate, aqua, coral]}}]\n";
        rakelight::read_layout_text(layout, "fuzz.yaml");
    } catch (const rakelight::LayoutError&) {
    }
    try {
        rakelight::read_layout_text(
            "panel: {size: [120, 80]}\nfields: [{name: sea, mix: slate}]\n"
            "light all round: {picture: " +
                file.string() + ", lux: 100}\n",
            "fuzz.yaml");
    } catch (const rakelight::LayoutError&) {
    }
    return 0;
}
