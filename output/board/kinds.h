// What counts as piece and as joint on a sample board that is about one field.
#pragma once

#include <string>
#include <vector>

#include "renderer/variants.h"
#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

/// Of the objects of a world. Pieces and joints of other fields do not count, where the board is about one;
/// `field` empty: all count.
std::vector<Seen> kinds_for(const World& world, const Layout& layout, const Laying& laying,
                            const std::string& field);

/// Of the first object that each pixel of a film met; `kinds` as above.
std::vector<Seen> kinds_of_pixels(const Film& film, const World& world, const std::vector<Seen>& kinds);

}  // namespace rakelight
