#include "output/film/notes.h"

namespace rakelight {

Xyz total_illuminance_xyz(const PictureNotes& notes) {
    Xyz sum;
    for (const Xyz& group : notes.illuminance_xyz) {
        sum.x += group.x;
        sum.y += group.y;
        sum.z += group.z;
    }
    return sum;
}

}  // namespace rakelight
