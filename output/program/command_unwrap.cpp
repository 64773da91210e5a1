// `rakelight unwrap`: light from all round out of photographs of a mirrored ball.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "output/mirrored_ball/unwrap.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "scene/text/units.h"

namespace rakelight {

namespace {

struct UnwrapRequest {
    std::vector<std::string> photographs;
    std::vector<double> ball;
    std::vector<std::string> seconds;
    double away = 0;
    int width_px = 2048;
    std::string as;
};

// "1/60" or "0.5".
double seconds_of(const std::string& text) {
    const Measure m = read_measure(text, Quantity::plain);
    if (!m.ok()) throw RequestError("--seconds: " + m.problem);
    if (!(m.value >= 1e-6) || m.value > 3600)
        throw RequestError(fmt::format("--seconds: found {}, expected 0.000001 to 3600", text));
    return m.value;
}

BallView ball_of(const UnwrapRequest& request) {
    BallView view;
    view.middle_px = {request.ball[0], request.ball[1]};
    view.radius_px = request.ball[2];
    if (!(view.radius_px >= 16))
        throw RequestError(
            fmt::format("--ball: found a radius of {:g} pixels, expected at least 16", view.radius_px));
    if (request.away > 0) view.away_radii = 2 * request.away;
    return view;
}

std::vector<BallShot> read_shots(const UnwrapRequest& request) {
    if (!request.seconds.empty() && request.seconds.size() != request.photographs.size())
        throw RequestError(fmt::format("--seconds: found {} for {} photographs, expected one for each",
                                       request.seconds.size(), request.photographs.size()));
    std::vector<BallShot> shots;
    for (std::size_t i = 0; i < request.photographs.size(); ++i) {
        const std::string& file = request.photographs[i];
        try {
            shots.push_back({Photograph(file)});
        } catch (const std::runtime_error& error) {
            throw RequestError(file + ": " + error.what());
        }
        const std::optional<double> noted = shots.back().photograph.exposure();
        if (!request.seconds.empty())
            shots.back().exposure = seconds_of(request.seconds[i]);
        else if (noted)
            shots.back().exposure = *noted;
        else if (request.photographs.size() > 1)
            throw RequestError(file +
                               ": found no exposure noted by the camera, expected --seconds with one "
                               "exposure for each photograph");
    }
    return shots;
}

void unwrap_ball(const UnwrapRequest& request) {
    const std::string target =
        request.as.empty() ? std::filesystem::path(request.photographs[0]).stem().string() + "-all-round.exr"
                           : request.as;
    if (std::filesystem::path(target).extension() != ".exr")
        throw RequestError(fmt::format("--as: found {}, expected a name that ends in .exr", target));
    const BallView view = ball_of(request);
    const std::vector<BallShot> shots = read_shots(request);
    Unwrapped made;
    try {
        made = unwrap(shots, view, request.width_px);
    } catch (const std::runtime_error& error) {
        throw RequestError(error.what());
    }
    write_surround_exr(target, made.picture, kProgram);
    fmt::print("{}: {} x {} pixels, brightest {:.0f} times the mean\n", target, made.picture.width_px,
               made.picture.height_px, made.most_over_mean);
    if (made.cut_off_share > 0)
        fmt::print(stderr,
                   "Warning: {:.2g} % of all directions are white in every photograph: what shines there is "
                   "brighter than the picture says; a shorter exposure would tell\n",
                   100 * made.cut_off_share);
}

}  // namespace

void add_unwrap(CLI::App& app) {
    auto* command =
        app.add_subcommand("unwrap", "Make light from all round of photographs of a mirrored ball");
    const auto r = std::make_shared<UnwrapRequest>();
    command
        ->add_option("photographs", r->photographs,
                     "The ball from one place in one or several exposures: JPEG, PNG, TIFF, EXR or raw")
        ->type_name("PHOTOGRAPH")
        ->required()
        ->expected(1, 20);
    command->add_option("--ball", r->ball, "Middle and radius of the ball in the photographs, in pixels")
        ->type_name("X,Y,RADIUS")
        ->delimiter(',')
        ->expected(3)
        ->required();
    command
        ->add_option("--seconds", r->seconds,
                     "How long each was exposed, as 1/250,1/30,1/4; else as the camera noted it")
        ->type_name("TIME,..")
        ->delimiter(',');
    command
        ->add_option("--away", r->away,
                     "How far the camera was from the ball's middle, in diameters of the ball; else very far")
        ->type_name("NUMBER")
        ->check(CLI::Range(0.75, 10'000.0));
    command->add_option("--width", r->width_px, "Width of the picture, in pixels; it is half as high")
        ->type_name("PIXELS")
        ->check(CLI::Range(64, 4096))
        ->capture_default_str();
    command->add_option("--as", r->as, "What the picture is called; else PHOTOGRAPH-all-round.exr")
        ->type_name("FILE.exr");
    command->footer(
        "The ball hangs where the panel will, the camera looks at it and the wall.\n"
        "The middle of the picture is then what lies straight out of the wall, as\n"
        "`light all round: {picture: hall.exr, lux: 180}` takes it.\n\n"
        "Examples:\n"
        "  rakelight unwrap ball-1.jpg ball-2.jpg ball-3.jpg --ball 2010,1482,655 --as hall.exr\n"
        "  rakelight unwrap ball.exr --ball 400,400,380 --away 12 --width 1024");
    command->callback([r] { unwrap_ball(*r); });
}

}  // namespace rakelight
