#include "output/portfolio/mounted_print.h"

#include <OpenImageIO/imageio.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "output/film/scene_hash.h"
#include "output/paper/page.h"
#include "scene/picture_file/open_picture.h"

namespace rakelight {

namespace {

constexpr double kStrip_mm = 8, kBaseline_mm = 5.2;
const EncodedSrgb kInk{0.2, 0.2, 0.2}, kGrey{0.45, 0.45, 0.45};

}  // namespace

Print mounted(const Print& picture, const std::string& caption, double px_per_mm, const std::string& what) {
    Print print{picture.width, picture.height + static_cast<int>(std::lround(kStrip_mm * px_per_mm)),
                picture.rgb};
    print.rgb.resize(3 * static_cast<std::size_t>(print.width) * static_cast<std::size_t>(print.height),
                     1.0f);
    const double width = picture.width / px_per_mm, base = picture.height / px_per_mm + kBaseline_mm;
    // Small prints get small letters.
    const double size = std::clamp(width / 60, 1.6, 2.6);
    Page words;
    const PageText honest{what, {width - 0.5, base}, size, false, Align::right, kGrey};
    const PageText said{caption, {0.5, base}, size, false, Align::left, kInk};
    words.texts = {cut(said, width - width_mm(honest) - 4), honest};
    print_over(print, words, px_per_mm);
    return print;
}

std::optional<Print> picture_of_print(const std::filesystem::path& path, int width_px, int height_px,
                                      std::uint64_t scene_hash) {
    std::unique_ptr<OIIO::ImageInput> in;
    try {
        in = open_picture(path, "a print", {"png"});
    } catch (const std::runtime_error&) {
        return {};
    }
    const OIIO::ImageSpec& spec = in->spec();
    if (spec.width != width_px || spec.height <= height_px || spec.nchannels != 3 ||
        spec.get_string_attribute("Scene hash") != hash_digits(scene_hash))
        return {};
    Print print{
        width_px, height_px,
        std::vector<float>(3 * static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px))};
    if (!in->read_scanlines(0, 0, 0, height_px, 0, 0, 3, OIIO::TypeDesc::FLOAT, print.rgb.data())) return {};
    return print;
}

}  // namespace rakelight
