// `rakelight watch`: renders a layout again each time that it, or a file it reads, is saved.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <chrono>
#include <memory>
#include <set>

#include "output/film/scene_hash.h"
#include "output/preview/deliver.h"
#include "output/preview/finished.h"
#include "output/preview/first_look.h"
#include "output/preview/lit_pictures.h"
#include "output/preview/picture_notes.h"
#include "output/preview/render_kept.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/parse_options.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "output/system/thread_limit.h"
#include "output/watch/changes.h"
#include "output/watch/kept_rooms.h"
#include "output/watch/watched_files.h"
#include "renderer/render.h"
#include "scene/text/diagnostics.h"
#include "scene/text/layout_tree.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct WatchRequest {
    std::string file;
    std::vector<std::string> changes;
    std::vector<std::string> pictures;
    std::vector<std::string> lights;
    std::string into = kFinishedFolder;
    std::string grain;
    std::string size;
    int threads = 0;
    int most_samples = 0;
    bool looks_only = false;
    bool no_glow = false;
    bool as_traced = false;
};

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// A line at once, though standard output may be a file.
template <class... Words>
void tell(fmt::format_string<Words...> text, Words&&... words) {
    fmt::print(text, std::forward<Words>(words)...);
    fmt::print("\n");
    std::fflush(stdout);
}

class Watch {
  public:
    explicit Watch(const WatchRequest& request)
        : request_(request), folder_(finished_folder(request.into, request.file, request.changes)) {}

    void run() {
        // What is mistyped here no save would mend.
        layout_file_text(request_.file);
        if (!request_.size.empty()) parse_size(request_.size);
        if (!request_.grain.empty()) parse_grain(request_.grain);
        make_writable_folder(folder_);
        for (;;) {
            saved_s_ = now_s();
            show();
            if (mistake_.empty() && !stopped()) tell("Waiting for the next save; Ctrl-C ends.");
            if (!files_.wait(interrupted)) return;
        }
    }

  private:
    // Mistakes are told, and leave the pictures as they are.
    void show() try {
        files_.watch(to_watch());
        const Layout layout = read_and_warn(request_.file, {}, request_.changes);
        mistake_.clear();
        tell_changes(layout);
        const std::vector<Picture> pictures = pictures_of(layout);
        sources_ = source_hash(layout);
        std::vector<std::string> files = layout.sources.files;
        files.insert(files.begin(), request_.file);
        files_.watch_also(files);
        good_files_ = files;
        const Holds holds = rooms_.take(layout);
        tell_kept(holds);
        if (holds == Holds::nothing || holds == Holds::some_fields) print_warnings(rooms_.laying().warnings);
        look_at_all(pictures);
        if (!request_.looks_only) render_all(pictures);
    } catch (const Cancelled&) {  // a signal, or the next save
    } catch (const Interrupted&) {
    } catch (const LayoutError& e) {
        tell_mistake(e.what());
    } catch (const RequestError& e) {
        tell_mistake(e.what());
    }

    void tell_mistake(const std::string& what) {
        // What was missing may appear beside the files that are known.
        std::set<std::string> folders;
        for (const std::string& path : to_watch())
            folders.insert((fs::path(path).parent_path() / ".").string());
        files_.watch_also({folders.begin(), folders.end()});
        if (std::exchange(mistake_, what) == what) return;
        fmt::print(stderr, "{}\n", what);
        tell("Nothing is rendered until that is mended; the pictures stay as they are.");
    }

    std::vector<std::string> to_watch() const {
        return good_files_.empty() ? std::vector<std::string>{request_.file} : good_files_;
    }

    std::vector<Picture> pictures_of(const Layout& layout) const {
        std::vector<Picture> pictures =
            pictures_in_lights(layout, choose_pictures(layout, request_.pictures), request_.lights);
        for (Picture& picture : pictures) {
            if (!request_.size.empty()) {
                const glm::ivec2 size = parse_size(request_.size);
                picture.width_px = size.x;
                picture.height_px = size.y;
            }
            if (!request_.grain.empty()) picture.error = parse_grain(request_.grain);
            if (request_.most_samples > 0) picture.most_samples = request_.most_samples;
        }
        return pictures;
    }

    void tell_changes(const Layout& layout) {
        const auto before = std::exchange(tree_, layout.sources.tree);
        if (!before) return;
        constexpr std::size_t kMostLines = 8;
        const std::vector<std::string> lines = changes_between(before->root, layout.sources.tree->root);
        for (std::size_t i = 0; i < std::min(lines.size(), kMostLines); ++i) tell("Changed: {}", lines[i]);
        if (lines.size() > kMostLines) tell("Changed: {} more", lines.size() - kMostLines);
        if (lines.empty()) tell("Saved, and nothing in the layout has changed.");
    }

    void tell_kept(Holds holds) const {
        const auto fields = rooms_.layout().fields.size();
        switch (holds) {
            case Holds::nothing:
                return tell("Laid: {} pieces.", rooms_.laying().pieces.size());
            case Holds::some_fields:
                return tell("Laid: {} pieces; {} of {} fields are kept.", rooms_.laying().pieces.size(),
                            rooms_.fields_kept(), fields);
            case Holds::meshes:
                return tell("Kept: all pieces and their forms.");
            case Holds::all_but_lights:
                return tell("Kept: all but lights and pictures.");
        }
    }

    bool is_done(const Picture& picture) const {
        return is_finished(folder_, file_stem(picture.name), scene_hash(sources_, kProgram, picture),
                           {!request_.no_glow, request_.as_traced});
    }

    bool stopped() { return interrupted() || files_.changed(); }

    void stop_if_saved() {
        if (stopped()) throw Cancelled{};
    }

    // All pictures first, coarsely.
    void look_at_all(const std::vector<Picture>& pictures) {
        for (const Picture& picture : pictures) {
            if (!request_.looks_only && is_done(picture)) continue;
            const LitRooms::Room room =
                rooms_.in(picture.light, look_detail_mm(rooms_.layout().views, pictures.front()));
            const fs::path path = show_unfinished(look_at(room, picture, kFirstLook), folder_,
                                                  {!request_.no_glow, request_.as_traced}, "a first look");
            tell("{}: a first look, {:.2f} s after the save", path.string(), now_s() - saved_s_);
            stop_if_saved();
        }
    }

    void render_all(const std::vector<Picture>& pictures) {
        for (const Picture& picture : pictures) {
            const std::uint64_t scene = scene_hash(sources_, kProgram, picture);
            if (is_done(picture)) {
                tell("{}: finished before", (folder_ / (file_stem(picture.name) + ".png")).string());
                continue;
            }
            const LitRooms::Room room = rooms_.in(picture.light, 0);
            stop_if_saved();
            const PictureNotes notes = notes_of(room.layout, room.world, room.bvh, picture, scene);
            KeptRender how{{0, picture.height_px},      request_.threads, 20, true, {},
                           [this] { return stopped(); }};
            how.seen = [&](const Film& film, int samples) {
                show_unfinished({film, notes}, folder_, {!request_.no_glow, request_.as_traced},
                                fmt::format("{} samples of each pixel", samples));
            };
            const BegunPlace place{folder_, file_stem(picture.name), notes, build_of_this_program()};
            const NotedFilm noted{render_kept(room.world, room.bvh, room.layout, picture, how, place), notes};
            for (const fs::path& path : deliver(noted, folder_, {!request_.no_glow, request_.as_traced}))
                tell("{}", path.string());
            forget_begun(place);
        }
    }

    const WatchRequest& request_;
    fs::path folder_;
    KeptRooms rooms_;
    WatchedFiles files_;
    std::vector<std::string> good_files_;
    std::shared_ptr<const LayoutTree> tree_;
    std::string mistake_;  // told last, and not mended yet
    std::uint64_t sources_ = 0;
    double saved_s_ = 0;
};

}  // namespace

void add_watch(CLI::App& app) {
    auto* command = app.add_subcommand(
        "watch", "Render a layout again each time that it is saved, keeping what still holds");
    const auto r = std::make_shared<WatchRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    command->add_option("--picture", r->pictures, "Only this picture of the layout; may be given again")
        ->type_name("NAME");
    command->add_option("--light", r->lights, kLightHelp)->type_name("NAME,..")->delimiter(',');
    add_into(*command, r->into);
    add_threads(*command, r->threads);
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
    command->add_flag("--looks-only", r->looks_only, "Show a first look after each save, and no more");
    command->add_flag("--no-glow", r->no_glow,
                      "Leave sparkles as they are, without the glow that the eye sees round them");
    command->add_flag("--as-traced", r->as_traced, kAsTracedHelp);
    command->footer(
        "Says what has changed, shows a first look in NAME.png, and writes the files that `preview` writes "
        "when a picture is finished. A save stops what is being rendered. Mistakes are told, and the "
        "pictures "
        "stay as they are. Ctrl-C ends it.\n\n"
        "Examples:\n"
        "  rakelight watch tide.yaml\n"
        "  rakelight watch tide.yaml --picture straight --size 600x450");
    command->callback([r] {
        const ThreadLimit limit(r->threads);
        Watch(*r).run();
    });
}

}  // namespace rakelight
