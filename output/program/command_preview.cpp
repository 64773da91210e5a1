// `rakelight preview`: renders pictures of a layout.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>
#include <optional>

#include "output/film/begun_passes.h"
#include "output/film/scene_hash.h"
#include "output/in_photograph/for_preview.h"
#include "output/in_photograph/section.h"
#include "output/preview/deliver.h"
#include "output/preview/finished.h"
#include "output/preview/first_look.h"
#include "output/preview/lit_pictures.h"
#include "output/preview/lit_rooms.h"
#include "output/preview/picture_notes.h"
#include "output/preview/render_kept.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/parse_options.h"
#include "output/program/preview_estimate.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/file_names.h"
#include "output/system/interrupt.h"
#include "output/system/job_words.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "output/system/thread_limit.h"
#include "renderer/render.h"
#include "scene/model/layout.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct PreviewRequest {
    std::string file;
    std::vector<std::string> changes;
    std::vector<std::string> pictures;
    std::vector<std::string> photographs;  ///< of `pictures` those that are photographs of the wall
    std::vector<std::string> lights;
    std::string into = kFinishedFolder;
    std::string pieces;
    int threads = 0;
    int most_samples = 0;
    std::string grain;
    std::string size;
    std::string rows;
    std::string part;
    std::vector<std::string> expect;
    double save_every_s = 20;
    bool quiet = false;
    bool no_glow = false;
    bool as_traced = false;
    bool skip_finished = false;
    bool json = false;
    bool no_look = false;
    bool dry_run = false;
    bool estimate = false;
};

// What one run of the command renders of a picture: all of it, or some rows with a name for the file.
struct Work {
    Picture picture;
    RowRange rows;
    std::optional<std::string> part;
};

std::vector<Work> plan(const Layout& layout, const PreviewRequest& request) {
    std::vector<Work> works;
    if (!request.photographs.empty() && request.pictures.empty()) return works;  // they alone are asked for
    for (Picture& picture :
         pictures_in_lights(layout, choose_pictures(layout, request.pictures), request.lights)) {
        if (!request.size.empty()) {
            const glm::ivec2 size = parse_size(request.size);
            picture.width_px = size.x;
            picture.height_px = size.y;
        }
        if (!request.grain.empty()) picture.error = parse_grain(request.grain);
        if (request.most_samples > 0) picture.most_samples = request.most_samples;
        Work work{picture, {0, picture.height_px}, {}};
        if (!request.rows.empty()) {
            work.rows = parse_rows(request.rows, picture.height_px);
            work.part = fmt::format("rows-{}-{}", work.rows.first_row + 1, work.rows.end_row);
        } else if (!request.part.empty()) {
            const Part part = parse_part(request.part);
            work.rows = rows_of_part(part, picture.height_px);
            work.part = fmt::format("part-{}-of-{}", part.which, part.of);
        }
        works.push_back(std::move(work));
    }
    return works;
}

// The file that a piece of work ends in, without its extension.
std::string stem_of(const Work& work) {
    const std::string stem = file_stem(work.picture.name);
    return work.part ? fmt::format("{}.{}", stem, *work.part) : stem;
}

// As far as can be told before anything is laid.
BegunPlace place_of(const Work& work, const fs::path& folder, std::uint64_t sources) {
    BegunPlace place{folder, stem_of(work), {}, build_of_this_program()};
    place.notes.program = kProgram;
    place.notes.scene_hash = scene_hash(sources, kProgram, work.picture);
    return place;
}

bool is_done(const Work& work, const BegunPlace& place, const PreviewRequest& request) {
    const std::uint64_t scene = place.notes.scene_hash;
    return is_finished(place.folder, file_stem(work.picture.name), scene,
                       {!request.no_glow, request.as_traced}) ||
           (work.part && is_part(place.folder / (place.stem + ".exr"), scene, work.rows));
}

// Of what is handed to many machines none may render another scene than the others.
void refuse_other_scenes(const std::vector<Work>& works, std::uint64_t sources,
                         const PreviewRequest& request) {
    if (request.expect.empty()) return;
    for (const Work& work : works) {
        const std::string hash = hash_digits(scene_hash(sources, kProgram, work.picture));
        if (!holds(request.expect, hash))
            throw RequestError(
                fmt::format("{}: found scene {} of {}, expected {}: the layout, a file it reads or the "
                            "program has changed",
                            request.file, hash, work.picture.name, fmt::join(request.expect, ", ")));
    }
}

// What of the works is still to be done; says so of the others, or with `dry_run` of all, leaving none.
std::vector<Work> still_to_do(const std::vector<Work>& works, const fs::path& folder, std::uint64_t sources,
                              const PreviewRequest& request) {
    std::vector<Work> left;
    for (const Work& work : works) {
        const BegunPlace place = place_of(work, folder, sources);
        const bool finished = request.skip_finished && is_done(work, place, request);
        const int begun = begun_until(place, work.rows.first_row) - work.rows.first_row;
        const int percent = begun_percent(place);
        const int rows = work.rows.end_row - work.rows.first_row;
        if (request.dry_run)
            fmt::print("{}\n", picture_line((folder / place.stem).string(), work.picture.width_px, rows,
                                            finished      ? "finished"
                                            : begun > 0   ? fmt::format("{} rows done", std::min(begun, rows))
                                            : percent > 0 ? fmt::format("{} % done", percent)
                                                          : "to render"));
        else if (finished)
            fmt::print(stderr, "Note: {} is finished, and nothing has changed\n", place.stem);
        else
            left.push_back(work);
    }
    return left;
}

void show_look(const LitRooms::Room& room, const Work& work, const LookSize& size, const fs::path& folder,
               const PreviewRequest& request) try {
    const NotedFilm look = look_at(room, work.picture, size);
    const fs::path path =
        show_unfinished(look, folder, {!request.no_glow, request.as_traced},
                        fmt::format("a look at one pixel in {}", size.divisor * size.divisor));
    if (!request.quiet && size.divisor == kFirstLook.divisor)
        fmt::print(stderr, "Note: a first look is in {}\n", path.string());
} catch (const Cancelled&) {
    stop_if_interrupted();
}

// First looks at those of the works that take long, light by light, in rooms of their own.
void show_first_looks(const Layout& layout, const Laying& laying, const std::vector<Work>& works,
                      const fs::path& folder, const PreviewRequest& request) {
    std::vector<Work> long_ones;
    for (const Work& work : works)
        if (!work.part && !request.no_look && is_worth_a_look(work.picture)) long_ones.push_back(work);
    if (long_ones.empty()) return;
    double finest_mm = look_detail_mm(layout.views, long_ones.front().picture);
    std::vector<std::string> lights;
    for (const Work& work : long_ones) lights.push_back(work.picture.light);
    LitRooms rooms(layout, laying, finest_mm);
    for (const std::vector<std::size_t>& in_one_world : rooms.sharing_a_world(lights))
        for (const std::size_t i : in_one_world) {
            stop_if_interrupted();
            show_look(rooms.in(lights[i]), long_ones[i], kFirstLook, folder, request);
        }
}

// Traces one piece of work and writes what it ends in.
void render_work(const Work& work, const LitRooms::Room& room, const PictureNotes& notes,
                 const fs::path& folder, const PreviewRequest& request) {
    const BegunPlace place{folder, stem_of(work), notes, build_of_this_program()};
    KeptRender kept{work.rows, request.threads, request.save_every_s, request.quiet, {}, {}};
    if (!work.part && !request.no_look) {
        if (is_worth_a_second_look(work.picture) && begun_percent(place) == 0)
            show_look(room, work, kSecondLook, folder, request);
        kept.seen = [&](const Film& film, int samples) {
            show_unfinished({film, notes}, folder, {!request.no_glow, request.as_traced},
                            fmt::format("{} samples of each pixel", samples));
        };
    }
    const NotedFilm noted{render_kept(room.world, room.bvh, room.layout, work.picture, kept, place), notes};
    if (work.part) {
        const fs::path path = folder / fmt::format("{}.{}.exr", file_stem(noted.notes.picture), *work.part);
        write_film(path, noted.film, noted.notes);
        if (!request.json) fmt::print("{}\n", path.string());
    } else {
        const std::vector<fs::path> files = deliver(noted, folder, {!request.no_glow, request.as_traced});
        if (request.json)
            fmt::print("{}", read_file(files.back()));
        else
            for (const fs::path& path : files) fmt::print("{}\n", path.string());
    }
    forget_begun(place);
}

void tell_estimate(const Layout& layout, const std::vector<Work>& works, const fs::path& folder,
                   std::uint64_t sources, const PreviewRequest& request) {
    std::vector<EstimatedPicture> pictures;
    for (const Work& work : works) {
        const BegunPlace place = place_of(work, folder, sources);
        pictures.push_back({work.picture, folder, place.stem, work.rows, place.notes.scene_hash,
                            request.skip_finished && is_done(work, place, request), 0});
    }
    fmt::print("{}", estimate_json(estimate(layout, std::move(pictures), request.threads), layout));
}

void render_works(const Layout& layout, const Laying& laying, const std::vector<Work>& works,
                  const fs::path& folder, std::uint64_t sources, const PreviewRequest& request) {
    show_first_looks(layout, laying, works, folder, request);
    LitRooms rooms(layout, laying);
    std::vector<std::string> lights;
    for (const Work& work : works) lights.push_back(work.picture.light);
    for (const std::vector<std::size_t>& in_one_world : rooms.sharing_a_world(lights)) {
        // All are metered before one is traced: a picture that no light falls on is refused at once.
        std::vector<PictureNotes> notes;
        for (const std::size_t i : in_one_world) {
            const LitRooms::Room room = rooms.in(lights[i]);
            stop_if_interrupted();
            notes.push_back(notes_of(room.layout, room.world, room.bvh, works[i].picture,
                                     scene_hash(sources, kProgram, works[i].picture)));
        }
        for (std::size_t k = 0; k < in_one_world.size(); ++k) {
            stop_if_interrupted();
            const std::size_t i = in_one_world[k];
            render_work(works[i], rooms.in(lights[i]), notes[k], folder, request);
        }
    }
}

// Tells names of photographs of the wall from those of other pictures. \return the photographs to be made:
// those asked for, or all, unless it is parts or figures of other pictures that are wanted.
std::vector<std::string> take_photographs(const Layout& layout, PreviewRequest& request) {
    const std::vector<std::string> known = wall_photograph_names(layout);
    for (const std::string& name : request.pictures)
        if (holds(known, name)) request.photographs.push_back(name);
    std::erase_if(request.pictures, [&](const std::string& name) { return holds(known, name); });
    const bool others = !request.rows.empty() || !request.part.empty() || request.estimate ||
                        !request.expect.empty() || request.dry_run || !request.lights.empty();
    if (!request.photographs.empty() || !request.pictures.empty() || others) return request.photographs;
    return known;
}

void check_names(const std::vector<Work>& works, std::vector<std::string> names) {
    for (const Work& work : works) names.push_back(work.picture.name);
    check_picture_names(names);
}

void preview(PreviewRequest request) {
    const ThreadLimit limit(request.threads);
    const Layout layout = read_and_warn(request.file, request.pieces, request.changes);
    const std::vector<std::string> in_photographs = take_photographs(layout, request);
    const std::uint64_t sources = source_hash(layout);
    const fs::path folder = finished_folder(request.into, request.file, request.changes);
    const std::vector<Work> all = plan(layout, request);
    check_names(all, in_photographs);
    refuse_other_scenes(all, sources, request);
    if (request.estimate) {
        tell_estimate(layout, all, folder, sources, request);
        return;
    }
    const std::vector<Work> works = still_to_do(all, folder, sources, request);
    const SettingIn setting{folder,      sources, request.threads, request.quiet, request.skip_finished,
                            request.json};
    const std::vector<TakenPhotograph> taken =
        still_to_set_in(open_photographs(layout, in_photographs), setting);
    if (works.empty() && taken.empty()) return;
    make_writable_folder(folder);

    const Laying laying = lay_and_warn(layout);
    for (const std::string& note : laying.notes) fmt::print(stderr, "Note: {}\n", note);
    stop_if_interrupted();
    render_works(layout, laying, works, folder, sources, request);
    set_into_photographs(taken, layout, laying, setting);
}

}  // namespace

void add_preview(CLI::App& app) {
    auto* command =
        app.add_subcommand("preview", "Render pictures of a layout as its lamps and viewers will show it");
    const auto r = std::make_shared<PreviewRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    command->add_option("--picture", r->pictures, "Only this picture of the layout; may be given again")
        ->type_name("NAME");
    command->add_option("--light", r->lights, kLightHelp)->type_name("NAME,..")->delimiter(',');
    add_into(*command, r->into);
    add_pieces(*command, r->pieces);
    add_threads(*command, r->threads);
    add_json(*command, r->json, "NAME.json, a text for each picture");
    command
        ->add_option("--most-samples", r->most_samples,
                     "At most this many samples a pixel, instead of the layout's")
        ->check(CLI::Range(1, 1 << 20));
    command->add_option("--grain", r->grain, "Grain to stop at, such as 2%, instead of the layout's")
        ->type_name("SHARE");
    command
        ->add_option("--size", r->size,
                     "Width and height in pixels, such as 1200x900, instead of the layout's")
        ->type_name("WxH");
    auto* rows =
        command
            ->add_option("--rows", r->rows, "Render only these rows, counted from 1 at the top, for `join`")
            ->type_name("A-B");
    command->add_option(kPartOption, r->part, "Render only the k-th of n bands of rows, for `join`")
        ->type_name("k/n")
        ->excludes(rows);
    command->add_flag("--skip-finished", r->skip_finished,
                      "Leave out pictures that are finished and whose layout has not changed");
    auto* dry_run = command->add_flag("--dry-run", r->dry_run, "Only say what there is to render");
    command
        ->add_flag("--estimate", r->estimate,
                   "Only say how long it would take, as JSON: lays, and traces a sample of each picture")
        ->excludes(dry_run);
    command
        ->add_option("--expect", r->expect,
                     "Refuse unless the scene hash of each picture is one of these, as --estimate tells them")
        ->type_name("HASH,..")
        ->delimiter(',');
    command
        ->add_option("--save-every", r->save_every_s,
                     "Seconds of work that a power cut may cost: what is done is kept at least so often")
        ->check(in_range(0, 86400))
        ->capture_default_str();
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->add_flag("--no-look", r->no_look,
                      "Write NAME.png when it is finished, and not before at every pass over the picture");
    command->add_flag("--no-glow", r->no_glow,
                      "Leave sparkles as they are, without the glow that the eye sees round them");
    command->add_flag("--as-traced", r->as_traced, kAsTracedHelp);
    command->footer(
        "Writes NAME.png, NAME.exr (light of each lamp group in cd/m2) and NAME.json (numbers) for each "
        "picture.\n"
        "Of a picture that takes long, NAME.png first shows a coarse look, then each pass over all of it.\n"
        "When it is interrupted, what is done is kept beside it, and the same command goes on from there.\n\n"
        "Examples:\n"
        "  rakelight preview tide.yaml\n"
        "  rakelight preview tide.yaml --picture evening --size 600x450 --grain 5%\n"
        "  rakelight preview tide.yaml --light \"gallery spot\" --light dusk\n"
        "  rakelight preview tide.yaml --part 1/2     (here)\n"
        "  rakelight preview tide.yaml --part 2/2     (on another machine)\n"
        "  rakelight join renders/tide/*.part-?-of-2.exr --into renders/tide");
    command->callback([r] { preview(*r); });
}

}  // namespace rakelight
