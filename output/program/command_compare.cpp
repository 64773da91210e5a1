// `rakelight compare`: a photograph of the real panel beside its picture.
#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <optional>

#include "output/compare/by_chart.h"
#include "output/compare/json.h"
#include "output/compare/sheet.h"
#include "output/film/notes.h"
#include "output/marks/byte_picture.h"
#include "output/marks/marked_plane.h"
#include "output/marks/seen_marks.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/laid_picture.h"
#include "output/samples/light_said.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"
#include "scene/text/units.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

struct CompareWords {
    std::string photo, film, layout;
    std::vector<std::string> corners, in_picture, chart, changes;
    bool find_chart = false;
    std::string light, white, correct, into = kFinishedFolder;
    bool json = false;
};

glm::dvec2 read_point(const char* option, const std::string& text) {
    const auto comma = text.find(',');
    const Measure x = read_measure(text.substr(0, comma), Quantity::plain);
    const Measure y = comma == std::string::npos ? Measure{0, "none"}
                                                 : read_measure(text.substr(comma + 1), Quantity::plain);
    if (!x.ok() || !y.ok())
        throw RequestError(
            fmt::format("{}: found {}, expected x,y in pixels from the top left, such as 812,340", option,
                        rakelight::quoted(text)));
    return {x.value, y.value};
}

Corners read_points(const char* option, const std::vector<std::string>& words) {
    Corners corners{};
    for (std::size_t i = 0; i < 4; ++i) corners[i] = read_point(option, words.at(i));
    return corners;
}

Corners read_corners(const char* option, const std::vector<std::string>& words, int width, int height,
                     const std::string& file) {
    const Corners corners = read_points(option, words);
    for (std::size_t i = 0; i < 4; ++i) {
        if (corners[i].x < -0.1 * width || corners[i].y < -0.1 * height || corners[i].x > 1.1 * width ||
            corners[i].y > 1.1 * height)
            throw RequestError(fmt::format("{}: found {}, expected a point of {}, which has {} x {} pixels",
                                           option, rakelight::quoted(words[i]), file, width, height));
    }
    if (!proper(corners))
        throw RequestError(
            fmt::format("{}: found corners that do not go round, expected top left, top right, "
                        "bottom right, bottom left",
                        option));
    return corners;
}

// By corner cards that lie at the corners of the panel.
Corners corners_by_cards(const CompareWords& words, const std::optional<LaidPicture>& laid) {
    if (!laid)
        throw RequestError(
            "--corners: found nothing, expected four points, or corner cards at the panel's corners in the "
            "photograph and --layout, which says how large it is");
    const Panel& panel = laid->layout.panel;
    const glm::dvec2 size(panel.width_mm, panel.height_mm);
    try {
        const MarkedPlane plane = marked_plane(see_marks(read_byte_picture(words.photo)), size);
        return {through(plane.to_px, {0, 0}), through(plane.to_px, {size.x, 0}), through(plane.to_px, size),
                through(plane.to_px, {0, size.y})};
    } catch (const std::runtime_error& error) {
        throw RequestError(fmt::format("{}: {}; or give --corners", words.photo, error.what()));
    }
}

CompareAsk read_ask(const CompareWords& words, const NotedFilm& noted, const PanelPhotograph& photo,
                    const std::optional<LaidPicture>& laid) {
    CompareAsk ask;
    ask.corners = words.corners.empty()
                      ? corners_by_cards(words, laid)
                      : read_corners("--corners", words.corners, photo.width, photo.height, words.photo);
    if (!words.in_picture.empty())
        ask.in_picture = read_corners("--picture-corners", words.in_picture, noted.film.width,
                                      noted.film.height, words.film);
    ask.white = words.white;
    ask.by_chart = !words.chart.empty() || words.find_chart;
    ask.light_white = total_illuminance_xyz(noted.notes);
    if (!laid) return ask;
    for (const Piece& piece : laid->laying.pieces) ask.field_of_piece.push_back(piece.field);
    for (const Field& field : laid->layout.fields) ask.field_names.push_back(field.name);
    return ask;
}

Spectrum light_of(const CompareWords& words, const NotedFilm& noted) {
    if (words.light.empty()) return light_like(total_illuminance_xyz(noted.notes));
    if (const auto light = light_said(words.light)) return *light;
    throw RequestError(
        fmt::format("--light: found {}, expected a CIE illuminant or a temperature, such as LED-B3 or "
                    "2700 K",
                    rakelight::quoted(words.light)));
}

// The photograph, by its chart where there is one.
ByChart read_photo(const CompareWords& words, const NotedFilm& noted) {
    if (words.chart.empty() && !words.find_chart) {
        if (!words.light.empty())
            throw RequestError("--light: found no chart to use it for, expected --chart");
        return {read_panel_photograph(words.photo), {}, false, {}};
    }
    std::optional<ChartCorners> told;
    if (!words.find_chart) told = read_points("--chart", words.chart);
    ByChart by = read_by_chart(words.photo, told, light_of(words, noted));
    for (const std::string& doubt : by.doubts) fmt::print(stderr, "Warning: {}: {}\n", words.photo, doubt);
    if (by.found)
        fmt::print(stderr, "The chart is found at {:.0f},{:.0f} {:.0f},{:.0f} {:.0f},{:.0f} {:.0f},{:.0f}\n",
                   by.corners[0].x, by.corners[0].y, by.corners[1].x, by.corners[1].y, by.corners[2].x,
                   by.corners[2].y, by.corners[3].x, by.corners[3].y);
    return by;
}

void tell(const Compared& c, const std::vector<Correction>& corrections) {
    fmt::print("CIEDE2000: half of the panel within {:.1f}, nine tenths within {:.1f}\n", c.median,
               c.nine_in_ten);
    if (!c.by_edges) fmt::print("Corners are taken as given: edges did not match better.\n");
    for (const ComparedArea& a : c.materials)
        fmt::print("  {:24} {:5.1f}   L* {:+.1f}, a* {:+.1f}, b* {:+.1f}\n", a.name, a.delta_e,
                   a.photo.l - a.picture.l, a.photo.a - a.picture.a, a.photo.b - a.picture.b);
    for (const Correction& each : corrections)
        fmt::print(
            "  {}: {}\n", each.name,
            each.new_name.empty() ? "not corrected: " + each.why_not : "corrected as " + each.new_name);
}

void compare_words(const CompareWords& words) {
    const NotedFilm noted = read_picture(words.film);
    const ByChart by = read_photo(words, noted);
    const PanelPhotograph& photo = by.photo;
    const std::optional<LaidPicture> laid = read_laid(words.layout, words.changes, words.film, noted.film);
    const CompareAsk ask = read_ask(words, noted, photo, laid);
    const Compared c = compare(noted.film, photo, ask);
    const CompareNames names{fs::path(words.photo).filename().string(), noted.notes.picture,
                             noted.notes.light, words.white,
                             ask.by_chart ? std::optional(by.corners) : std::nullopt};
    Corrected corrected;
    if (!words.correct.empty())
        corrected = corrected_stock(c, laid->layout, laid->laying, names.photo, names.picture);

    const std::string stem =
        "compare-" + file_stem(names.light.empty() ? names.picture : names.picture + " " + names.light);
    const std::string of = words.layout.empty() ? noted.notes.layout_file : words.layout;
    FinishedFiles files(finished_folder(words.into, of, words.changes), !words.json);
    const PictureText about{{"Software", kProgram}, {"Description", "a photograph beside a rendering"}};
    files.picture(stem + ".png",
                  compare_sheet(c, fmt::format("{} beside {}", names.photo, names.picture), kProgram), about);
    files.picture(stem + "-photograph.png", compared_photograph(c), about);
    files.picture(stem + "-picture.png", compared_picture(c), about);
    const std::string json =
        files.record(stem + ".json", compare_json(c, names, corrected.entries,
                                                  {kProgram, noted.notes.layout_file, noted.notes.scene_hash},
                                                  files.names()));
    if (!words.correct.empty()) write_file(words.correct, corrected.yaml);
    if (words.json)
        fmt::print("{}", json);
    else
        tell(c, corrected.entries);
}

}  // namespace

void add_compare(CLI::App& app) {
    auto* command = app.add_subcommand("compare", "Hold a photograph of the real panel against its picture");
    const auto w = std::make_shared<CompareWords>();
    command->add_option("PHOTO", w->photo, "The photograph: JPEG, PNG, TIFF")->required();
    command->add_option("PICTURE", w->film, "The light file of the picture, NAME.exr")->required();
    command
        ->add_option(
            "--corners", w->corners,
            "Corners of the laid panel in the photograph, in pixels from the top left: top left, top "
            "right, bottom right, bottom left; else found by corner cards of `marks` that lie there")
        ->type_name("X,Y")
        ->expected(4);
    command
        ->add_option("--picture-corners", w->in_picture,
                     "The same four points in the picture, where they are not the corners of its pieces")
        ->type_name("X,Y")
        ->expected(4);
    command
        ->add_option("--white", w->white,
                     "A pale field or material that counts as right: exposure and white are taken from it")
        ->type_name("NAME");
    auto* chart =
        command
            ->add_option("--chart", w->chart,
                         "A 24-patch chart in the photograph gives exposure, white, tone curve and colour: "
                         "the outer corners of its patches dark skin, bluish green, black and white")
            ->type_name("X,Y")
            ->expected(4);
    command
        ->add_flag("--find-chart", w->find_chart,
                   "The same, the chart found by itself (with the part find-chart)")
        ->excludes(chart);
    command
        ->add_option("--light", w->light,
                     "What lit chart and panel, such as LED-B3 or 2700 K; usually told from the picture's "
                     "own white")
        ->type_name("LIGHT");
    auto* layout = command->add_option("--layout", w->layout, "The layout file, for fields and --correct")
                       ->type_name("FILE");
    command->add_option("--set", w->changes, "Change a key of that layout; may be given again")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false)
        ->needs(layout);
    command
        ->add_option("--correct", w->correct,
                     "Write a stock library of what is off, its colour moved as the photograph shows")
        ->type_name("FILE")
        ->needs(layout);
    add_into(*command, w->into);
    add_json(*command, w->json, "compare-PICTURE.json");
    command->footer(
        "Writes compare-PICTURE.png, a sheet; both in one perspective, to be laid over one another; and\n"
        "compare-PICTURE.json.\n\n"
        "Examples:\n"
        "  rakelight compare panel.jpg renders/tide/straight.exr \\\n"
        "    --corners 812,340 3310,352 3290,2210 830,2190 --white foam-white \\\n"
        "    --layout tide.yaml --correct seen.yaml");
    command->callback([w] { compare_words(*w); });
}

}  // namespace rakelight
