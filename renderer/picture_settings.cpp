#include "renderer/picture_settings.h"

#include <algorithm>
#include <stdexcept>

#include "renderer/light_meter.h"
#include "renderer/surface_colours.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

Camera camera_of(const Layout& layout, const Picture& picture, const glm::dvec3& origin_mm) {
    const auto view = std::find_if(layout.views.viewpoints.begin(), layout.views.viewpoints.end(),
                                   [&](const Viewpoint& v) { return v.name == picture.viewpoint; });
    if (view == layout.views.viewpoints.end())
        throw std::invalid_argument("no viewpoint is called " + picture.viewpoint);
    return make_camera(*view, picture.width_px, picture.height_px, origin_mm);
}

}  // namespace

PictureSettings picture_settings(const World& world, const Bvh& bvh, const Layout& layout,
                                 const Picture& picture, const RenderOptions& options) {
    PictureSettings settings;
    settings.lamps = lamps_of_picture(world, layout, picture);
    settings.tile.camera = options.camera ? *options.camera : camera_of(layout, picture, world.origin_mm);
    settings.tile.lens = options.lens;
    settings.tile.surfaces = world.surfaces;
    settings.tile.colours = surface_colours(world.surfaces);
    settings.tile.patience = options.patience;
    settings.tile.footprints = options.footprints;
    settings.tile.seed = mix_word(static_cast<std::uint32_t>(picture.grain_seed.value_or(layout.panel.seed)));
    settings.tile.most_samples = options.most_samples.value_or(picture.most_samples);
    settings.tile.wanted_error = options.error.value_or(picture.error);
    settings.tile.card_cd_per_m2 =
        options.card_cd_per_m2 ? *options.card_cd_per_m2
                               : grey_card_cd_per_m2(panel_illuminance_xyz(world, bvh, settings.lamps));
    return settings;
}

Film blank_film(const World& world, const Picture& picture, const RowRange& rows) {
    Film film;
    film.width = picture.width_px;
    film.height = picture.height_px;
    film.rows = rows;
    film.groups = world.groups;
    film.materials = world.materials;
    film.guide.is_there = true;
    hold_rows(film, rows);
    return film;
}

}  // namespace rakelight
