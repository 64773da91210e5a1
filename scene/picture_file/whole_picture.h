// A whole picture in memory, the right way up.
#pragma once

#include <OpenImageIO/imagebuf.h>
#include <OpenImageIO/imageio.h>

namespace rakelight {

/// The pixels of an open picture (open_picture.h; its size is checked by then) as `type`, or as they are in
/// the file with OIIO::TypeUnknown, turned as its Exif orientation says (JEITA CP-3451, tag 274). Throws
/// std::runtime_error where it breaks off.
OIIO::ImageBuf whole_picture(OIIO::ImageInput& in, OIIO::TypeDesc type);

}  // namespace rakelight
