// `rakelight clip`: short moving pictures of a layout.
#include <fmt/format.h>
#include <unistd.h>

#include <memory>

#include "output/clip/encoder.h"
#include "output/clip/json.h"
#include "output/clip/section.h"
#include "output/film/begun_film.h"
#include "output/film/scene_hash.h"
#include "output/preview/lit_pictures.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/parse_options.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "output/system/thread_limit.h"
#include "renderer/render.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

constexpr int kWebpShrink = 2;  // for mails and pages that take no MP4

struct ClipRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string pieces;
    std::string into = kFinishedFolder;
    std::vector<std::string> only;
    std::string light;
    std::string size;
    std::string grain;
    double seconds = 0;
    int most_samples = 0;
    int threads = 0;
    bool json = false;
    bool quiet = false;
};

Clips wanted_clips(const Layout& layout, const ClipRequest& request) {
    Clips clips = read_clips(layout);
    if (!request.size.empty()) clips.size_px = parse_size(request.size);
    if (clips.size_px.x % 2 != 0 || clips.size_px.y % 2 != 0)
        throw RequestError(fmt::format("--size: found {}, expected two even numbers", request.size));
    if (!request.grain.empty()) clips.grain = parse_grain(request.grain);
    if (request.seconds > 0) clips.seconds = request.seconds;
    if (request.most_samples > 0) clips.most_samples = request.most_samples;
    return clips;
}

// Those asked for, or all that the layout has what it takes for.
std::vector<ClipKind> wanted_kinds(const Layout& layout, const ClipRequest& request) {
    check_words("--only", request.only, kClipWords);
    std::vector<ClipKind> kinds;
    for (std::size_t i = 0; i < kClipWords.size(); ++i) {
        const auto kind = static_cast<ClipKind>(i);
        const std::string why = why_no_clip(kind, layout);
        if (!request.only.empty() && !holds(request.only, kClipWords[i])) continue;
        if (!why.empty() && !request.only.empty())
            throw RequestError(fmt::format("{}: --only {}: {}", layout.sources.path, kClipWords[i], why));
        if (why.empty()) kinds.push_back(kind);
    }
    return kinds;
}

void make_clip(const ClipWork& work, const Layout& layout, const Laying& laying,
               const std::filesystem::path& into, const ClipRequest& request) {
    const std::string stem = clip_stem(work.kind);
    const FrameFolder folder(into, stem, clip_hash(work, layout));
    MadeFrames made;
    try {
        made = make_frames(work, layout, laying, folder);
    } catch (const Cancelled&) {
        fmt::print(stderr, "Note: frames of {} that are done are kept; the same command goes on from there\n",
                   stem);
        throw;
    }
    FinishedFiles files(into, !request.json);
    const auto encoded = [&](const std::string& name, int shrink) {
        files.add(name, [&](const std::filesystem::path& path) {
            encode_clip(folder.files(made.frames), work.clips.frames_per_s, shrink, folder.path() / name,
                        path);
        });
    };
    encoded(stem + ".mp4", 1);
    encoded(stem + ".webp", kWebpShrink);
    const std::string light = layout.on.name == kOwnLight ? "" : layout.on.name;
    const std::string json = files.record(
        stem + ".json",
        clip_json(work, made, layout.panel.name, light, made_from(layout, kProgram), files.names()));
    if (request.json) fmt::print("{}", json);
    folder.forget();
}

void clip(const ClipRequest& request) {
    const ThreadLimit limit(request.threads);
    const Layout read = read_and_warn(request.file, request.pieces, request.changes);
    const Layout layout = request.light.empty() ? read : with_light(read, request.light);
    const Clips clips = wanted_clips(layout, request);
    const std::vector<ClipKind> kinds = wanted_kinds(layout, request);
    check_encoder();
    const std::filesystem::path into = finished_folder(request.into, request.file, request.changes);
    make_writable_folder(into);
    const std::uint64_t sources = fnv1a(build_of_this_program(), source_hash(layout));
    const Laying laying = lay_and_warn(layout);
    for (const ClipKind kind : kinds) {
        stop_if_interrupted();
        make_clip({kind, clips, sources, request.threads, request.quiet}, layout, laying, into, request);
    }
}

}  // namespace

void add_clip(CLI::App& app) {
    auto* command =
        app.add_subcommand("clip", "Render short moving pictures: walking past, lamps dimmed, a day");
    const auto r = std::make_shared<ClipRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_pieces(*command, r->pieces);
    add_into(*command, r->into);
    add_threads(*command, r->threads);
    add_json(*command, r->json, "clip-NAME.json, a text for each clip");
    command->add_option("--only", r->only, "Make only these: walk past, dimmed, day")
        ->type_name("WHAT,..")
        ->delimiter(',');
    command->add_option("--light", r->light, "Show it in this light instead of the layout's own")
        ->type_name("NAME");
    command->add_option("--seconds", r->seconds, "How long each clip is, instead of the layout's")
        ->check(in_range(0.1, 60));
    command->add_option("--size", r->size, "Width and height in pixels, such as 640x360, both even")
        ->type_name("WxH");
    command->add_option("--grain", r->grain, "Grain to stop at, such as 8%, instead of the layout's")
        ->type_name("SHARE");
    command->add_option("--most-samples", r->most_samples, "At most this many samples a pixel of a frame")
        ->check(CLI::Range(1, 1 << 16));
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Writes clip-walk-past, clip-dimmed and, where a window has a time of day, clip-day: each as .mp4, "
        "as .webp of "
        "half the width for mails, and .json. All frames are exposed alike, and grain stands still. Frames "
        "that are done "
        "are kept when it is interrupted; the same command goes on from there.\n\n"
        "Examples:\n"
        "  rakelight clip tide.yaml --only \"walk past\" --size 640x360 --seconds 3\n"
        "  rakelight clip foyer.yaml --only dimmed");
    command->callback([r] { clip(*r); });
}

}  // namespace rakelight
