#include "output/print/resized.h"

#include <OpenImageIO/imagebuf.h>
#include <OpenImageIO/imagebufalgo.h>

#include <algorithm>
#include <stdexcept>

namespace rakelight {

Print resized(const Print& print, int width_px, int height_px) {
    if (print.width == width_px && print.height == height_px) return print;
    std::vector<float> from = print.rgb;
    const OIIO::ImageBuf before(OIIO::ImageSpec(print.width, print.height, 3, OIIO::TypeDesc::FLOAT),
                                from.data());
    Print after{
        width_px, height_px,
        std::vector<float>(3 * static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px))};
    OIIO::ImageBuf to(OIIO::ImageSpec(width_px, height_px, 3, OIIO::TypeDesc::FLOAT), after.rgb.data());
    if (!OIIO::ImageBufAlgo::resize(to, before, "mitchell", 0, {0, width_px, 0, height_px, 0, 1, 0, 3}, 1))
        throw std::runtime_error(to.geterror());
    for (float& value : after.rgb) value = std::clamp(value, 0.0f, 1.0f);
    return after;
}

}  // namespace rakelight
