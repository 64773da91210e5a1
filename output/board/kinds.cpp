#include "output/board/kinds.h"

#include <algorithm>
#include <map>

#include "scene/model/layout.h"

namespace rakelight {

std::vector<Seen> kinds_for(const World& world, const Layout& layout, const Laying& laying,
                            const std::string& field) {
    std::vector<Seen> kinds = kinds_of_objects(world, layout.stock.size());
    const auto own = std::find_if(layout.fields.begin(), layout.fields.end(),
                                  [&](const Field& f) { return f.name == field; });
    if (own == layout.fields.end()) return kinds;
    const auto number = static_cast<std::size_t>(own - layout.fields.begin());
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        const Object& object = world.objects[i];
        const auto piece = static_cast<std::size_t>(object.piece) - 1;
        const auto tint = static_cast<std::size_t>(object.material) - 1 - layout.stock.size();
        if (kinds[i] == Seen::joint ? tint != filling_of(*own)
                                    : piece >= laying.pieces.size() || laying.pieces[piece].field != number)
            kinds[i] = Seen::other;
    }
    return kinds;
}

std::vector<Seen> kinds_of_pixels(const Film& film, const World& world, const std::vector<Seen>& kinds) {
    std::map<std::int32_t, Seen> of_piece, of_material;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        const Object& object = world.objects[i];
        if (object.piece > 0)
            of_piece[object.piece] = kinds[i];
        else if (kinds[i] == Seen::joint)
            of_material[object.material] = Seen::joint;
    }
    std::vector<Seen> pixels(film.pixel_count(), Seen::other);
    for (std::size_t i = 0; i < pixels.size(); ++i) {
        const auto& known = film.features.piece[i] > 0 ? of_piece : of_material;
        const auto it =
            known.find(film.features.piece[i] > 0 ? film.features.piece[i] : film.features.material[i]);
        if (it != known.end()) pixels[i] = it->second;
    }
    return pixels;
}

}  // namespace rakelight
