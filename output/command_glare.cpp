// `rakelight glare`: where lamps mirror in a panel at a viewer's eye, and how much that disturbs.
#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <numbers>

#include "output/commands.h"
#include "output/deliver.h"
#include "output/errors.h"
#include "output/exposure.h"
#include "output/glare_sheet.h"
#include "output/interrupt.h"
#include "output/picture_writer.h"
#include "output/progress.h"
#include "output/request.h"
#include "output/safe_file.h"
#include "output/seen_patches.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/laying.h"
#include "scene/layout_reader.h"
#include "scene/nearest_word.h"
#include "scene/region.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct GlareRequest {
    std::string file;
    std::vector<std::string> viewpoints;
    std::vector<std::string> lamps;
    std::string into = kFinishedFolder;
    GlareLimits limits;
    int most_samples = 256;
    bool quiet = false;
};

std::vector<Viewpoint> choose_viewpoints(const Layout& layout, const std::vector<std::string>& names) {
    if (names.empty()) return layout.viewpoints;
    std::vector<std::string> known;
    for (const Viewpoint& v : layout.viewpoints) known.push_back(v.name);
    std::vector<Viewpoint> chosen;
    for (const std::string& name : names) {
        const auto found = std::find(known.begin(), known.end(), name);
        if (found == known.end())
            throw RequestError(
                fmt::format("{} has no viewpoint called {}{}", layout.path, name, did_you_mean(name, known)));
        chosen.push_back(layout.viewpoints[static_cast<std::size_t>(found - known.begin())]);
    }
    return chosen;
}

// A layout of one viewpoint, for the pictures that the figures are counted from.
struct Look {
    Layout layout;
    Picture picture;
};

Look look_from(const Layout& layout, const Viewpoint& view, const glm::ivec2& size_px,
               const GlareRequest& request) {
    Look look{layout, {}};
    look.layout.viewpoints = {view};
    look.picture.name = look.picture.viewpoint = view.name;
    look.picture.lamps = request.lamps;
    look.picture.width_px = size_px.x;
    look.picture.height_px = size_px.y;
    look.picture.most_samples = request.most_samples;
    return look;
}

// The whole of what an eye takes in, coarsely: 110 degrees wide.
Viewpoint taking_in_all(Viewpoint view) {
    constexpr double kHalf_deg = 55;
    view.view_width_mm = 2 * std::tan(glm::radians(kHalf_deg)) * glm::length(view.look_at_mm - view.eye_mm);
    return view;
}

Film traced(const World& world, const Rays& rays, const Look& look, std::string_view what, bool quiet) {
    Progress progress(fmt::format("{}{}", look.picture.name, what), progress_kind(stderr, quiet));
    RenderOptions options;
    options.progress = [&](double share) { progress.show(share); };
    options.cancelled = interrupted;
    return render(world, rays, look.layout, look.picture, options);
}

Print developed(const World& world, const Rays& rays, const Look& look, const Film& film) {
    NotedFilm noted{film, {}};
    noted.notes.picture = look.picture.name;
    for (const glm::dvec3& xyz :
         panel_illuminance_xyz(world, rays, lamps_of_picture(world, look.layout, look.picture)))
        noted.notes.illuminance_xyz.push_back({xyz.x, xyz.y, xyz.z});
    noted.notes.exposure_rule = total_illuminance_xyz(noted.notes).y > 0 ? "grey-card" : "eye";
    return develop(film, developing_for(noted, false));
}

void name_patches(GlareReport& report, const Film& film, const Layout& layout, const Laying& laying) {
    for (const HotPatch& patch : report.glare.patches) {
        if (report.patches.size() == kMostNamed) break;
        NamedPatch named{patch, film.groups[patch.group], "", {}};
        const auto piece = static_cast<std::size_t>(patch.piece) - 1;
        if (piece < laying.pieces.size()) {
            named.field = layout.fields[laying.pieces[piece].field].name;
            named.at_mm = centroid(laying.pieces[piece].outline_mm);
        } else if (piece - laying.pieces.size() < laying.stones.size()) {
            named.at_mm = laying.stones[piece - laying.pieces.size()].stone.at_mm;
        }
        report.patches.push_back(std::move(named));
    }
    for (const FieldLight& light : report.glare.fields)
        report.field_names.push_back(layout.fields[light.field].name);
}

GlareReport report_glare(const GlareRequest& request, const Layout& layout, const Laying& laying,
                         const World& world, const Look& look, const Film& film, const Look& wide,
                         const Film& all) {
    GlareReport report;
    report.panel = layout.name;
    report.viewpoint = look.picture.name;
    report.limits = request.limits;
    const auto camera_of = [&](const Look& l, const Film& f) {
        return make_camera(l.layout.viewpoints[0], f.width, f.height, world.origin_mm);
    };
    std::vector<std::uint32_t> field_of_piece;
    for (const Piece& piece : laying.pieces) field_of_piece.push_back(piece.field);
    report.glare = panel_glare(film, seen_patches(film, camera_of(look, film)), field_of_piece,
                               layout.width_mm * layout.height_mm * 1e-6, request.limits);
    const Viewpoint& view = wide.layout.viewpoints[0];
    const GlareView seen = glare_in_view(seen_patches(all, camera_of(wide, all)), all.width,
                                         glm::normalize(view.look_at_mm - view.eye_mm), {0, 1, 0});
    report.rating = seen.rating;
    report.background_cd_per_m2 = seen.background_cd_per_m2;
    name_patches(report, film, layout, laying);
    judge(report);
    return report;
}

void glare(const GlareRequest& request) {
    const Layout layout = read_layout(request.file);
    for (const std::string& warning : layout.warnings) fmt::print(stderr, "Warning: {}\n", warning);
    const std::vector<Viewpoint> viewpoints = choose_viewpoints(layout, request.viewpoints);
    const fs::path folder = fs::path(request.into) / file_stem(fs::path(request.file).stem().string());
    make_writable_folder(folder);
    const Laying laying = lay(layout);
    const World world = build_world(layout, laying);
    stop_if_interrupted();
    const Rays rays(world);
    const auto wide_px = static_cast<int>(std::lround(kGlarePicture_mm * kGlareSheet_px_per_mm));
    std::vector<GlareReport> reports;
    std::vector<std::string> files;
    for (const Viewpoint& view : viewpoints) {
        const Look look = look_from(layout, view, {wide_px, wide_px * 3 / 4}, request);
        const Look wide = look_from(layout, taking_in_all(view), {440, 330}, request);
        const Film film = traced(world, rays, look, "", request.quiet);
        stop_if_interrupted();
        const Film all = traced(world, rays, wide, ", the whole view", request.quiet);
        stop_if_interrupted();
        reports.push_back(report_glare(request, layout, laying, world, look, film, wide, all));
        const LuminanceScale scale = scale_for(film);
        files.push_back(fmt::format("glare-{}.png", file_stem(view.name)));
        write_png(folder / files.back(),
                  glare_sheet(reports.back(), developed(world, rays, look, film), luminance_map(film, scale),
                              scale, kProgram),
                  {{"Software", kProgram}, {"Description", "glare sheet: a rendering, not a photograph"}});
        fmt::print("{}: {}\n{}\n", view.name, reports.back().verdict, (folder / files.back()).string());
    }
    write_file(folder / "glare.json", glare_json(reports, kProgram, files));
    fmt::print("{}\n", (folder / "glare.json").string());
}

}  // namespace

void add_glare(CLI::App& app) {
    auto* command = app.add_subcommand("glare", "Find where lamps mirror in the panel at a viewer's eye");
    const auto r = std::make_shared<GlareRequest>();
    command->add_option("FILE", r->file, "The layout file")->required();
    command->add_option("--viewpoint", r->viewpoints, "Only this viewpoint; may be given again")
        ->type_name("NAME");
    command->add_option("--lamps", r->lamps, "Only this lamp or lamp group; may be given again")
        ->type_name("NAME");
    command
        ->add_option("--into", r->into,
                     "Folder for the finished files; a folder named after the layout is made in it")
        ->type_name("DIR")
        ->capture_default_str();
    command->add_option("--hot", r->limits.hot, "Count what mirrors over this many times the local body")
        ->check(CLI::Range(1.0, 1e6))
        ->capture_default_str();
    command->add_option("--patch", r->limits.patch_deg, "Degrees from which a bright patch is a complaint")
        ->check(CLI::Range(0.01, 60.0))
        ->capture_default_str();
    command->add_option("--veil", r->limits.veil, "Times its own light from which a field is veiled")
        ->check(CLI::Range(1.0, 1e3))
        ->capture_default_str();
    command->add_option("--most-samples", r->most_samples, "At most this many light paths a pixel")
        ->check(CLI::Range(1, 1 << 20))
        ->capture_default_str();
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Writes glare-VIEWPOINT.png, a sheet with the picture, its luminance in cd/m2 and the figures, and\n"
        "glare.json.\n\n"
        "Examples:\n"
        "  rakelight glare foyer.yaml\n"
        "  rakelight glare foyer.yaml --viewpoint seated --lamps window");
    command->callback([r] { glare(*r); });
}

}  // namespace rakelight
