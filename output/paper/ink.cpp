#include "output/paper/ink.h"

#include "materials/colour/colorimetry.h"

namespace rakelight::sheet {

namespace {

EncodedSrgb grey(double lightness) {
    const Xyz white = xyz_of(kD65);
    return from_bytes(to_bytes(encode(xyz_to_linear_rgb(lab_to_xyz({lightness, 0, 0}, white)))));
}

}  // namespace

const EncodedSrgb kPaper = grey(kSurroundLightness), kInk = grey(8), kLight = grey(97);

}  // namespace rakelight::sheet
