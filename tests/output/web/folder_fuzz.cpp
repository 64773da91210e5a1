// Fuzz target: whatever a JSON beside a picture says, as a record and as a board, a folder becomes a page or
// a RequestError says why not.
#include <OpenImageIO/imageio.h>

#include <cstddef>
#include <cstdint>
#include <vector>

#include "output/system/errors.h"
#include "output/web/page.h"
#include "tests/support/fuzz_file.h"

namespace {

void write_picture(const std::filesystem::path& path) {
    const OIIO::ImageSpec spec(4, 4, 3, OIIO::TypeDesc::UINT8);
    const std::vector<std::uint8_t> pixels(48, 128);
    const auto out = OIIO::ImageOutput::create("png");
    out->open(path.string(), spec);
    out->write_image(OIIO::TypeDesc::UINT8, pixels.data());
    out->close();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rakelight;
    const auto record = test::fuzz_file(data, size, ".json");
    const auto folder = record.parent_path() / "run";
    static const bool begun = [&] {
        std::filesystem::create_directories(folder);
        for (const char* const name : {"straight.png", "board.png", "board-1-1.png"})
            write_picture(folder / name);
        return true;
    }();
    (void)begun;
    std::filesystem::copy_file(record, folder / "board.json",
                               std::filesystem::copy_options::overwrite_existing);
    std::filesystem::rename(record, folder / "straight.json");
    try {
        const RunFolder run = read_run_folder(folder);
        web_page(run, folder, "fuzz");
        client_page(run, folder, "fuzz");
    } catch (const RequestError&) {
    }
    return 0;
}
