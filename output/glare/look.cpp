#include "output/glare/look.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/filter/filter.h"
#include "output/glare/measures/seen_patches.h"
#include "output/glare/share_map.h"
#include "output/preview/deliver.h"
#include "output/preview/expected_time.h"
#include "output/preview/picture_notes.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/progress.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/geometry/region.h"
#include "scene/laying/region_plan.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/model/viewpoint.h"
#include "scene/room/panel_frame.h"
#include "scene/surround/all_round.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

// Of a pixel: a flash (panel_glare.h) spread over one this large is still hot before 10 cd/m2.
constexpr double kCoarsest_arcmin = 4;
constexpr int kMostFiner = 4;

Layout one_group_a_lamp(Layout layout) {
    for (Lamp& lamp : layout.on.lamps) lamp.group = lamp.name;
    for (Window& window : layout.on.windows) window.group = window.name;
    if (auto& round = layout.on.all_round) {
        round->group = round->name;
        round->spots_apart = true;
    }
    return layout;
}

// Height over width of the pictures that are taken from a viewpoint: the tallest of them, so that no panel is
// cut off.
double shape_of(const Views& views, const std::string& viewpoint) {
    double tallest = 0;
    for (const Picture& picture : views.pictures)
        if (picture.viewpoint == viewpoint)
            tallest = std::max(tallest, double(picture.height_px) / picture.width_px);
    return tallest > 0 ? std::clamp(tallest, 0.5, 1.4) : 0.75;
}

struct Shot {
    Layout layout;
    Picture picture;
};

Shot shot_from(const GlareRoom& room, const Viewpoint& view, int width_px, int height_px,
               const GlareAsk& ask) {
    Shot shot{room.layout, {}};
    shot.layout.views.viewpoints = {view};
    shot.picture.name = shot.picture.viewpoint = view.name;
    shot.picture.lamps = ask.lamps;
    shot.picture.width_px = width_px;
    shot.picture.height_px = height_px;
    shot.picture.most_samples = ask.most_samples;
    shot.picture.error = ask.error;
    return shot;
}

// How many pixels each way are traced for one of the sheet's.
int times_finer(const Viewpoint& view, const GlareAsk& ask) {
    const double angle_arcmin = 60 * glm::degrees(view.view_width_mm / view_distance_mm(view)) / ask.width_px;
    return std::clamp(static_cast<int>(std::ceil(angle_arcmin / kCoarsest_arcmin)), 1, kMostFiner);
}

glm::ivec2 size_of_look(const GlareRoom& room, const Viewpoint& view, const GlareAsk& ask) {
    const int height = static_cast<int>(std::lround(ask.width_px * shape_of(room.layout.views, view.name)));
    return times_finer(view, ask) * glm::ivec2(ask.width_px, height);
}

// What disturbs in itself, seen by an eye that looks along the view.
void rate_glare(GlareReport& report, const GlareRoom& room, const Viewpoint& view, const GlareAsk& ask) {
    Picture picture;
    picture.lamps = ask.lamps;
    std::vector<std::uint32_t> windows;
    for (std::uint32_t g = 0; g < room.world.groups.size(); ++g)
        if (std::ranges::find(room.layout.on.windows, room.world.groups[g], &Window::name) !=
                room.layout.on.windows.end() ||
            (room.layout.on.all_round && room.layout.on.all_round->name == room.world.groups[g]))
            windows.push_back(g);
    const GlareView seen = glare_in_view(
        room.world, room.bvh, lamps_of_picture(room.world, room.layout, picture),
        {view.eye_mm - room.world.origin_mm, glm::normalize(view.look_at_mm - view.eye_mm)}, windows);
    report.rating = seen.rating;
    report.background_cd_per_m2 = seen.background_cd_per_m2;
    for (const GlareSource& source : seen.sources)
        report.sources.push_back({room.world.groups[source.group], source});
}

RenderOptions options_of_look(std::span<const glm::dvec3> illuminance) {
    RenderOptions options;
    options.mirrored = true;
    options.footprints = false;  // numbers are of interfaces as they are
    options.card_cd_per_m2 = grey_card_cd_per_m2(illuminance);
    options.cancelled = interrupted;
    return options;
}

Film traced(const GlareRoom& room, const Shot& shot, std::span<const glm::dvec3> illuminance,
            const GlareAsk& ask) {
    Progress progress(shot.picture.name + ask.what, progress_kind(stderr, ask.quiet));
    RenderOptions options = options_of_look(illuminance);
    options.progress = [&](double share) { progress.show(share); };
    Film film = render(room.world, room.bvh, shot.layout, shot.picture, options);
    stop_if_interrupted();
    return film;
}

Camera camera_of(const GlareRoom& room, const Viewpoint& view, const Film& film) {
    return make_camera(view, film.width, film.height, room.world.origin_mm);
}

Developing developing(const Shot& shot, const Film& film, std::span<const glm::dvec3> illuminance,
                      std::optional<double> ev100) {
    NotedFilm noted{film, {}};
    noted.notes.picture = shot.picture.name;
    noted.notes.illuminance_xyz = noted_illuminance(illuminance);
    noted.notes.exposure_rule = total_illuminance_xyz(noted.notes).y > 0 ? "grey-card" : "adapted";
    Developing how = developing_for(noted, false);
    if (ev100) how.ev100 = *ev100;
    return how;
}

NamedPatch named(const BrightPatch& patch, const GlareRoom& room, const Film& film) {
    NamedPatch named{patch, film.groups[patch.group], "", {}};
    const auto piece = static_cast<std::size_t>(patch.piece) - 1;
    const Laying& laying = room.laying;
    if (piece < laying.pieces.size()) {
        named.field = room.layout.fields[laying.pieces[piece].field].name;
        named.at_mm = centroid(laying.pieces[piece].outline_mm);
    } else if (piece - laying.pieces.size() < laying.stones.size()) {
        named.at_mm = laying.stones[piece - laying.pieces.size()].stone.at_mm;
    }
    return named;
}

void name_patches(GlareReport& report, const GlareRoom& room, const Film& film, int finer) {
    PanelGlare& glare = report.glare;
    for (std::vector<BrightPatch>* list : {&glare.patches, &glare.marks})
        for (BrightPatch& patch : *list) patch.pixel /= finer;
    report.lamps = film.groups;
    if (!glare.patches.empty()) report.largest = named(glare.patches.front(), room, film);
    for (std::size_t i = 0; i < std::min(kMostNamed, glare.marks.size()); ++i)
        report.marks.push_back(named(glare.marks[i], room, film));
}

}  // namespace

GlareRoom::GlareRoom(const Layout& from, const Laying& laid)
    : layout(one_group_a_lamp(from)), laying(laid), world(build_world(layout, laid)), bvh(world) {}

std::vector<std::string> lights_meant(const Layout& layout, const std::vector<std::string>& names) {
    const std::vector<std::string> known = light_names(layout);
    std::vector<std::string> lights;
    for (const std::string& name : names) {
        if (std::find(known.begin(), known.end(), name) == known.end())
            throw RequestError(fmt::format("{} has no lamp or lamp group called {}{}", layout.sources.path,
                                           name, did_you_mean(name, known)));
        for (const Lamp& lamp : layout.on.lamps)
            if (lamp.name == name || lamp.group == name) lights.push_back(lamp.name);
        for (const Window& window : layout.on.windows)
            if (window.name == name || window.group == name) lights.push_back(window.name);
        if (name == kSunName) lights.push_back(name);
        if (const auto& round = layout.on.all_round; round && (round->name == name || round->group == name))
            lights.push_back(round->name);
    }
    return lights;
}

void refuse_cut_off_light(const Layout& layout) {
    const auto& round = layout.on.all_round;
    if (!round || !round->picture->picture().cut_off) return;
    throw RequestError(fmt::format(
        "{}: light all round: found {}, a picture of whole numbers, in which every lamp is cut off at white: "
        "it "
        "tells colour and direction, but glare comes of how bright a lamp is, expected EXR or Radiance HDR",
        layout.sources.path, round->file));
}

bool sees_panel(const Layout& layout, const Viewpoint& view) {
    const PanelFrame hang = panel_frame(layout.panel);
    if (hang.to_panel_mm(view.eye_mm).z <= 0) return false;
    constexpr int kWidth = 400, kSteps = 24;
    const int height = static_cast<int>(kWidth * shape_of(layout.views, view.name));
    const Camera camera = make_camera(view, kWidth, height, {0, 0, 0});
    const glm::dvec3 corner(camera.corner), right(camera.right), down(camera.down);
    const glm::dmat3 frame(right, down, corner);
    for (int j = 0; j <= kSteps; ++j)
        for (int i = 0; i <= kSteps; ++i) {
            const glm::dvec3 at = hang.origin_mm + hang.to_room({layout.panel.width_mm * i / kSteps,
                                                                 layout.panel.height_mm * j / kSteps, 0});
            const glm::dvec3 seen = glm::inverse(frame) * (at - view.eye_mm);  // along right, down, corner
            const double x = seen.x / seen.z, y = seen.y / seen.z;
            if (seen.z > 0 && x >= 0 && x <= 1 && y >= 0 && y <= 1) return true;
        }
    return false;
}

std::vector<glm::dvec3> metered_light(const GlareRoom& room, const GlareAsk& ask) {
    Picture picture;
    picture.lamps = ask.lamps;
    return panel_illuminance_xyz(room.world, room.bvh, lamps_of_picture(room.world, room.layout, picture));
}

double expected_look_s(const GlareRoom& room, std::span<const glm::dvec3> illuminance, const Viewpoint& view,
                       const GlareAsk& ask) {
    const glm::ivec2 size_px = size_of_look(room, view, ask);
    const Shot shot = shot_from(room, view, size_px.x, size_px.y, ask);
    return expected_seconds(room.world, room.bvh, shot.layout, shot.picture, options_of_look(illuminance));
}

GlareLook look_for_glare(const GlareRoom& room, std::span<const glm::dvec3> illuminance,
                         const Viewpoint& view, const GlareAsk& ask, std::optional<double> ev100) {
    const int finer = times_finer(view, ask);
    const glm::ivec2 size_px = size_of_look(room, view, ask);
    const Shot shot = shot_from(room, view, size_px.x, size_px.y, ask);
    const Film film = traced(room, shot, illuminance, ask);

    GlareLook look;
    GlareReport& report = look.report;
    report.panel = room.layout.panel.name;
    report.viewpoint = view.name;
    report.limits = ask.limits;
    report.in_view = sees_panel(room.layout, view);
    std::vector<std::uint32_t> field_of_piece;
    for (const Piece& piece : room.laying.pieces) field_of_piece.push_back(piece.field);
    report.glare = panel_glare(film, seen_patches(film, camera_of(room, view, film)), field_of_piece,
                               area_mm2(panel_region(room.layout.panel)) * 1e-6, ask.limits);
    for (const FieldLight& light : report.glare.fields)
        report.field_names.push_back(room.layout.fields[light.field].name);
    rate_glare(report, room, view, ask);
    report.contrasts = field_contrasts(report.glare, room.layout.fields, ask.contrast);
    name_patches(report, room, film, finer);
    judge(report);

    const Film small = shrunk(film, finer);
    const Developing how = developing(shot, small, illuminance, ev100);
    look.ev100 = how.ev100;
    // Figures are told as traced; the picture is filtered as prints are.
    look.pictures.picture = develop(can_be_filtered(film) ? shrunk(filtered(film), finer) : small, how);
    look.scale = scale_for(small);
    look.pictures.map = luminance_map(small, look.scale);
    look.pictures.share = share_map(small);
    return look;
}

}  // namespace rakelight
