#include "scene/picture_file/whole_picture.h"

#include <OpenImageIO/imagebufalgo.h>

#include <stdexcept>

namespace rakelight {

OIIO::ImageBuf whole_picture(OIIO::ImageInput& in, OIIO::TypeDesc type) {
    OIIO::ImageSpec spec = in.spec();
    if (type == OIIO::TypeUnknown) type = spec.format;
    spec.set_format(type);
    OIIO::ImageBuf lying(spec);
    if (!in.read_image(0, 0, 0, spec.nchannels, type, lying.localpixels())) {
        (void)in.geterror();
        throw std::runtime_error("found a picture that breaks off, expected a whole one");
    }
    if (lying.orientation() == 1) return lying;
    return OIIO::ImageBufAlgo::reorient(lying);
}

}  // namespace rakelight
