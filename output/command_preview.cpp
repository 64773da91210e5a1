// `rakelight preview`: renders pictures of a layout.
#include <fmt/format.h>
#include <tbb/global_control.h>

#include <cmath>
#include <memory>
#include <numbers>
#include <optional>

#include "output/commands.h"
#include "output/deliver.h"
#include "output/errors.h"
#include "output/interrupt.h"
#include "output/progress.h"
#include "output/request.h"
#include "output/safe_file.h"
#include "output/scene_hash.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/laying.h"
#include "scene/layout_reader.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct PreviewRequest {
    std::string file;
    std::vector<std::string> pictures;
    std::string into = kFinishedFolder;
    std::string pieces;
    int threads = 0;
    int most_samples = 0;
    std::string error;
    std::string size;
    std::string rows;
    std::string share;
    bool quiet = false;
    bool no_halo = false;
};

// What one run of the command renders of a picture: all of it, or some rows with a name for the file.
struct Work {
    Picture picture;
    RowRange rows;
    std::optional<std::string> part;
};

std::vector<Work> plan(const Layout& layout, const PreviewRequest& request) {
    std::vector<Work> works;
    for (Picture& picture : choose_pictures(layout, request.pictures)) {
        if (!request.size.empty()) {
            const glm::ivec2 size = parse_size(request.size);
            picture.width_px = size.x;
            picture.height_px = size.y;
        }
        if (!request.error.empty()) picture.error = parse_error_share(request.error);
        if (request.most_samples > 0) picture.most_samples = request.most_samples;
        Work work{picture, {0, picture.height_px}, {}};
        if (!request.rows.empty()) {
            work.rows = parse_rows(request.rows, picture.height_px);
            work.part = fmt::format("rows-{}-{}", work.rows.first_row + 1, work.rows.end_row);
        } else if (!request.share.empty()) {
            const Share share = parse_share(request.share);
            work.rows = rows_of_share(share, picture.height_px);
            work.part = fmt::format("part-{}-of-{}", share.which, share.of);
        }
        works.push_back(std::move(work));
    }
    return works;
}

double pixel_deg(const Layout& layout, const Picture& picture) {
    for (const Viewpoint& view : layout.viewpoints)
        if (view.name == picture.viewpoint)
            return std::atan(view.view_width_mm / picture.width_px /
                             glm::length(view.look_at_mm - view.eye_mm)) *
                   180 / std::numbers::pi;
    throw RequestError(
        fmt::format("picture {}: there is no viewpoint called {}", picture.name, picture.viewpoint));
}

PictureNotes make_notes(const Layout& layout, const World& world, const Rays& rays, const Picture& picture,
                        std::uint64_t sources) {
    PictureNotes notes;
    notes.program = kProgram;
    notes.panel = layout.name;
    notes.layout_file = fs::path(layout.path).filename().string();
    notes.picture = picture.name;
    notes.scene_hash = scene_hash(sources, kProgram, picture);
    for (const glm::dvec3& xyz : panel_illuminance_xyz(world, rays, lamps_of_picture(world, layout, picture)))
        notes.illuminance_xyz.push_back({xyz.x, xyz.y, xyz.z});
    notes.ev = picture.ev;
    notes.exposure_rule = picture.exposure;
    notes.pixel_deg = pixel_deg(layout, picture);
    notes.wanted_error = picture.error;
    notes.most_samples = picture.most_samples;
    return notes;
}

Film render_rows(const World& world, const Rays& rays, const Layout& layout, const Work& work,
                 const PreviewRequest& request) {
    Progress progress(work.picture.name, progress_kind(stderr, request.quiet));
    RenderOptions options;
    options.threads = request.threads;
    options.rows = work.rows;
    options.progress = [&](double share) { progress.show(share); };
    options.cancelled = interrupted;
    return render(world, rays, layout, work.picture, options);
}

void preview(const PreviewRequest& request) {
    std::optional<tbb::global_control> limit;
    if (request.threads > 0)
        limit.emplace(tbb::global_control::max_allowed_parallelism,
                      static_cast<std::size_t>(request.threads));
    const Layout layout = read_layout(request.file, request.pieces);
    for (const std::string& warning : layout.warnings) fmt::print(stderr, "Warning: {}\n", warning);
    const std::uint64_t sources = source_hash(layout);
    const std::vector<Work> works = plan(layout, request);
    const fs::path folder = fs::path(request.into) / file_stem(fs::path(request.file).stem().string());
    make_writable_folder(folder);

    const Laying laying = lay(layout);
    for (const std::string& note : laying.notes) fmt::print(stderr, "Note: {}\n", note);
    for (const std::string& warning : laying.warnings) fmt::print(stderr, "Warning: {}\n", warning);
    const World world = build_world(layout, laying);
    stop_if_interrupted();
    const Rays rays(world);
    std::vector<PictureNotes> notes;
    for (const Work& work : works) {
        notes.push_back(make_notes(layout, world, rays, work.picture, sources));
        check_exposure(notes.back());
    }
    for (std::size_t i = 0; i < works.size(); ++i) {
        stop_if_interrupted();
        const NotedFilm noted{render_rows(world, rays, layout, works[i], request), notes[i]};
        if (works[i].part) {
            const fs::path path =
                folder / fmt::format("{}.{}.exr", file_stem(noted.notes.picture), *works[i].part);
            write_film(path, noted.film, noted.notes);
            fmt::print("{}\n", path.string());
        } else {
            for (const fs::path& path : deliver(noted, folder, !request.no_halo))
                fmt::print("{}\n", path.string());
        }
    }
}

}  // namespace

void add_preview(CLI::App& app) {
    auto* command =
        app.add_subcommand("preview", "Render pictures of a layout as its lamps and viewers will show it");
    const auto r = std::make_shared<PreviewRequest>();
    command->add_option("FILE", r->file, "The layout file")->required();
    command->add_option("--picture", r->pictures, "Only this picture of the layout; may be given again")
        ->type_name("NAME");
    command
        ->add_option("--into", r->into,
                     "Folder for the finished files; a folder named after the layout is made in it")
        ->type_name("DIR")
        ->capture_default_str();
    command->add_option("--pieces", r->pieces, kPiecesHelp)->type_name("FILE");
    command
        ->add_option("--threads", r->threads,
                     "Processor threads to use; 0 = all. Does not change the picture")
        ->check(CLI::Range(0, 1024))
        ->capture_default_str();
    command
        ->add_option("--most-samples", r->most_samples,
                     "At most this many light paths a pixel, instead of the layout's")
        ->check(CLI::Range(1, 1 << 20));
    command->add_option("--error", r->error, "Grain to stop at, such as 2%, instead of the layout's")
        ->type_name("SHARE");
    command
        ->add_option("--size", r->size,
                     "Width and height in pixels, such as 1200x900, instead of the layout's")
        ->type_name("WxH");
    auto* rows =
        command
            ->add_option("--rows", r->rows, "Render only these rows, counted from 1 at the top, for `join`")
            ->type_name("A-B");
    command->add_option("--share", r->share, "Render only the k-th of n bands of rows, for `join`")
        ->type_name("k/n")
        ->excludes(rows);
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->add_flag("--no-halo", r->no_halo,
                      "Leave glints as they are, without the glare of the eye round them");
    command->footer(
        "Writes NAME.png, NAME.exr (light of each lamp group in cd/m2) and NAME.json (numbers) for each "
        "picture.\n\n"
        "Examples:\n"
        "  rakelight preview tide.yaml\n"
        "  rakelight preview tide.yaml --picture evening --size 600x450 --error 5%\n"
        "  rakelight preview tide.yaml --share 1/2     (here)\n"
        "  rakelight preview tide.yaml --share 2/2     (on another machine)\n"
        "  rakelight join renders/tide/*.part-?-of-2.exr --into renders/tide");
    command->callback([r] { preview(*r); });
}

}  // namespace rakelight
