#include "scene/model/eye_heights.h"

namespace rakelight {

double eye_height_mm(std::string_view who) {
    for (const EyeHeight& eyes : kEyeHeights)
        if (eyes.who == who) return eyes.above_floor_mm;
    return 0;
}

}  // namespace rakelight
