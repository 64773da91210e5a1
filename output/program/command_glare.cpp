// `rakelight glare`: where lamps mirror in a panel at a viewer's eye, how much that disturbs, and what to
// move.
#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "output/glare/json.h"
#include "output/glare/move.h"
#include "output/glare/moving/moved_layout.h"
#include "output/glare/section.h"
#include "output/preview/expected_time.h"
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
#include "scene/keys/keys.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

struct GlareRequest {
    std::string file;
    std::vector<std::string> changes;
    std::vector<std::string> viewpoints;
    std::vector<std::string> lamps;
    std::vector<std::string> lights;
    std::string into = kFinishedFolder;
    std::optional<double> bright_ratio, dazzling_ratio, bright_spot_deg,
        veil_ratio;  // instead of the layout's
    int most_samples = kUsualGlareSamples;
    bool move = false;
    std::string moved_file;
    bool quiet = false;
    bool json = false;
};

std::vector<Viewpoint> choose_viewpoints(const Layout& layout, const std::vector<std::string>& names) {
    if (names.empty()) return layout.views.viewpoints;
    std::vector<std::string> known;
    for (const Viewpoint& v : layout.views.viewpoints) known.push_back(v.name);
    std::vector<Viewpoint> chosen;
    for (const std::string& name : names) {
        const auto found = std::find(known.begin(), known.end(), name);
        if (found == known.end())
            throw RequestError(fmt::format("{} has no viewpoint called {}{}", layout.sources.path, name,
                                           did_you_mean(name, known)));
        chosen.push_back(layout.views.viewpoints[static_cast<std::size_t>(found - known.begin())]);
    }
    return chosen;
}

void check_views(const Layout& layout, const std::vector<Viewpoint>& views) {
    for (const Viewpoint& view : views)
        if (sees_panel(layout, view)) return;
    throw RequestError(
        fmt::format("{}: no viewpoint asked for has the panel in view, expected one that looks "
                    "at it from the front",
                    layout.sources.path));
}

GlareLimits limits_of(const GlareRequest& request, GlareLimits limits) {
    limits.bright_ratio = request.bright_ratio.value_or(limits.bright_ratio);
    limits.dazzling_ratio =
        std::max(request.dazzling_ratio.value_or(limits.dazzling_ratio), limits.bright_ratio);
    limits.bright_spot_deg = request.bright_spot_deg.value_or(limits.bright_spot_deg);
    limits.veil_ratio = request.veil_ratio.value_or(limits.veil_ratio);
    return limits;
}

void write_sheet(FinishedFiles& files, const std::string& name, const Print& print) {
    files.picture(name, print,
                  {{"Software", kProgram}, {"Description", "glare sheet: a rendering, not a photograph"}});
}

void tell(const MoveReport& report) {
    const TracedMove& advised = report.traced.at(report.advised);
    fmt::print("{}\n", report.verdict);
    for (const std::string& sentence : advised.advice) fmt::print("  {}\n", sentence);
    for (const TriedAlone& t : report.tried)
        fmt::print("  Alone, {}: worst glare score {:.2f}, {:.0f} lx (reckoned)\n", t.what, t.worst, t.lux);
    for (const std::string& key : advised.keys) fmt::print("    {}\n", key);
}

// Says what the tracing will take. Of what to move, at most three arrangements are traced at half the width,
// and the advised one again in full.
void say_how_long(const GlareRoom& room, std::span<const glm::dvec3> light,
                  const std::vector<Viewpoint>& views, const GlareAsk& ask, bool move) {
    constexpr double kFinalists = 3, kHalfWidth = 0.25;
    double expected_s = 0;
    for (const Viewpoint& view : views) expected_s += expected_look_s(room, light, view, ask);
    if (move) expected_s *= 2 + kFinalists * kHalfWidth;
    fmt::print(stderr, "{}{} pictures{}: about {}\n", kTracing, views.size(),
               move ? fmt::format(", and {} to find what to move", 4 * views.size()) : "",
               spoken_seconds(expected_s));
}

// One set-up of light, and how its files are named apart from those of the others.
struct Lit {
    Layout layout;
    std::string light;  // empty = the only one there is
    std::string file(const std::string& name) const {
        return "glare-" + file_stem(light.empty() ? name : name + " " + light) + ".png";
    }
};

std::vector<Lit> lit_layouts(const Layout& layout, const GlareRequest& request) {
    std::vector<Lit> all;
    const std::vector<std::string> lights = chosen_lights(layout, request.lights);
    for (const std::string& light : lights)
        all.push_back({with_light(layout, light), lights.size() > 1 || !request.lights.empty() ? light : ""});
    for (const Lit& lit : all) {
        refuse_cut_off_light(lit.layout);
        lights_meant(lit.layout, request.lamps);
        check_views(lit.layout, choose_viewpoints(lit.layout, request.viewpoints));
    }
    if (request.moved_file.empty()) return all;
    if (all.size() > 1)
        throw RequestError("--moved: found several lights, expected one, chosen with --light");
    check_moved_path(layout, request.moved_file);
    return all;
}

void glare(const GlareRequest& request) {
    const Layout layout = read_and_warn(request.file, "", request.changes);
    const GlareSection section = read_glare_section(layout);
    const std::vector<Lit> lights = lit_layouts(layout, request);
    FinishedFiles files(finished_folder(request.into, request.file, request.changes), !request.json);
    const Laying laying = lay(layout);
    GlareAsk ask;
    ask.limits = limits_of(request, section.limits);
    ask.contrast = section.contrast.empty() ? bordering_pairs(layout.fields, laying) : section.contrast;
    ask.most_samples = request.most_samples;
    ask.quiet = request.quiet;
    stop_if_interrupted();

    std::vector<GlareReport> reports;
    nlohmann::ordered_json moves;
    std::string moved_text;
    for (const Lit& lit : lights) {
        ask.lamps = lights_meant(lit.layout, request.lamps);
        const std::vector<Viewpoint> views = choose_viewpoints(lit.layout, request.viewpoints);
        const GlareRoom room(lit.layout, laying);
        const std::vector<glm::dvec3> light = metered_light(room, ask);
        if (!request.quiet) say_how_long(room, light, views, ask, request.move);
        std::vector<GlareLook> looks;
        for (const Viewpoint& view : views) {
            looks.push_back(look_for_glare(room, light, view, ask));
            GlareLook& look = looks.back();
            look.report.light = lit.light;
            reports.push_back(look.report);
            if (!request.json) fmt::print("{}: {}\n", view.name, look.report.verdict);
            write_sheet(files, lit.file(view.name),
                        glare_sheet(look.report, look.pictures, look.scale, kProgram));
        }
        if (!request.move) continue;
        MoveAnswer answer = find_moves(room, light, views, looks, section.move, ask);
        if (!answer.found.empty()) {
            for (const std::string& line : answer.found)
                fmt::print(request.json ? stderr : stdout, "{}\n", line);
            stop_if_interrupted();
        }
        answer.report.light = lit.light;
        if (!request.json) tell(answer.report);
        write_sheet(files, lit.file("what to move"),
                    move_sheet(answer.report, room.layout, views, answer.pairs, kProgram));
        moves.push_back(json_of(answer.report));
        if (!request.moved_file.empty())
            moved_text =
                moved_layout_text(lit.layout, answer.report.traced[answer.report.advised].choice.how);
    }
    const std::string json =
        files.record("glare.json", glare_json(reports, moves, made_from(layout, kProgram), files.names()));
    if (!request.moved_file.empty()) write_file(request.moved_file, moved_text);
    if (request.json)
        fmt::print("{}", json);
    else if (!request.moved_file.empty())
        fmt::print("{}\n", request.moved_file);
}

}  // namespace

void add_glare(CLI::App& app) {
    auto* command = app.add_subcommand(
        "glare", "Find where lamps mirror in the panel at a viewer's eye, and what to move");
    const auto r = std::make_shared<GlareRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    command->add_option("--viewpoint", r->viewpoints, "Only this viewpoint; may be given again")
        ->type_name("NAME");
    command->add_option("--lamps", r->lamps, "Only this lamp or lamp group; may be given again")
        ->type_name("NAME");
    command->add_option("--light", r->lights, kLightHelp)->type_name("NAME,..")->delimiter(',');
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "glare.json");
    const auto limit = [&](const char* name, std::optional<double>& value, std::string_view key,
                           const std::string& what) {
        const Range range = range_of(keys::glare, key);
        command->add_option(name, value, what)->check(in_range(range.low, range.high));
    };
    const GlareLimits usual;
    limit("--bright-ratio", r->bright_ratio, "bright ratio",
          fmt::format("Count what reflects over this many times the panel's own light ({:g})",
                      usual.bright_ratio));
    limit("--dazzling-ratio", r->dazzling_ratio, "dazzling ratio",
          fmt::format("Count what dazzles from this many times ({:g})", usual.dazzling_ratio));
    limit("--bright-spot", r->bright_spot_deg, "bright spot",
          fmt::format("Degrees from which a bright patch is a complaint ({:g})", usual.bright_spot_deg));
    limit("--veil-ratio", r->veil_ratio, "veil ratio",
          fmt::format("Times its own light from which a field is veiled ({:g})", usual.veil_ratio));
    command->add_option("--most-samples", r->most_samples, "At most this many samples a pixel")
        ->check(CLI::Range(1, 1 << 20))
        ->capture_default_str();
    auto* move =
        command->add_flag("--move", r->move,
                          "Say what to move, within the bounds of glare: move: in the layout (or a lean "
                          "of 0 to 8 degrees)");
    command->add_option("--moved", r->moved_file, "Write the layout with the advised changes to this file")
        ->type_name("FILE")
        ->needs(move);
    command->add_flag("--quiet", r->quiet, "Do not show progress");
    command->footer(
        "Writes glare-VIEWPOINT.png, a sheet with the picture, its luminance in cd/m2, what is mirrored and "
        "the\n"
        "figures, and glare.json. With --move also glare-what-to-move.png.\n\n"
        "Examples:\n"
        "  rakelight glare foyer.yaml\n"
        "  rakelight glare foyer.yaml --viewpoint seated --lamps window\n"
        "  rakelight glare foyer.yaml --move --moved foyer-moved.yaml");
    command->callback([r] { glare(*r); });
}

}  // namespace rakelight
