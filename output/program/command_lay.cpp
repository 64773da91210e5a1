// `rakelight lay`: drawings and lists of a layout as laid, in seconds.
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "output/film/scene_hash.h"
#include "output/lay/drawing.h"
#include "output/lay/json.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/parse_options.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"
#include "scene/pieces/piece_table.h"
#include "scene/text/shown_amounts.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

constexpr double kMostSide_px = 16384;
constexpr double kUsualSide_px = 2800;
constexpr double kMapFineness_px_per_mm = 5.5;  // small figures stay legible

struct LayRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string pieces;
    std::string into = kFinishedFolder;
    std::vector<std::string> with;
    std::vector<std::string> only;
    std::string paper;
    double px_per_mm = 0;
    bool json = false;
};

double fineness(const Tracing& drawing, double wanted_px_per_mm, double least_px_per_mm = 0.5) {
    const double side = std::max(drawing.size_mm.x, drawing.size_mm.y);
    if (wanted_px_per_mm * side > kMostSide_px)
        throw RequestError(fmt::format("--px-per-mm {:g}: expected at most {:.3g} for a sheet of {:.0f} mm",
                                       wanted_px_per_mm, std::floor(1000 * kMostSide_px / side) / 1000,
                                       side));
    return wanted_px_per_mm > 0 ? wanted_px_per_mm : std::clamp(kUsualSide_px / side, least_px_per_mm, 12.0);
}

void write_drawing(FinishedFiles& files, const std::string& name, const Tracing& drawing, double px_per_mm) {
    files.text(name + ".svg", tracing_svg(drawing));
    files.drawing(name + ".png", drawing, px_per_mm);
}

void print_numbers(const Layout& layout, const LayingReport& report) {
    fmt::print("{}: {}\n", layout.panel.name, sheet_facts(layout, report));
    const Units units = layout.units;
    const auto area = [&](double mm2) { return shown_area(mm2, units, 1); };
    fmt::print("{:<28}{:>8}{:>12}{:>10}{:>10}\n", "", "pieces", "face " + area_unit(units), "joints %",
               small_mass_unit(units));
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const LaidField& field = report.fields[f];
        fmt::print("{:<28}{:>8}{:>12}{:>10.1f}{:>10}\n", layout.fields[f].name, field.count,
                   area(field.area_mm2), 100 * field.joint_share(), shown_small_mass(field.mass_g, units));
        for (const LaidCount& c : field.materials)
            fmt::print("  {:<3}{:<23}{:>8}{:>12}{:>10}{:>10}\n", report.code[c.material],
                       layout.stock[c.material].name, c.count, area(c.area_mm2), "",
                       shown_small_mass(c.mass_g, units));
    }
    if (report.stone_count)
        fmt::print("{:<28}{:>8}{:>12}\n", "stones", report.stone_count, area(report.stone_mm2));
}

void lay_out(const LayRequest& request) {
    check_words("--with", request.with, {"guides", "outlines", "names", "faults"});
    check_words("--only", request.only, {"colours", "joints", "map", "pieces"});
    const std::vector<MapPaper> papers =
        request.paper.empty() ? usual_papers() : std::vector{paper_called(request.paper)};
    const Layout layout = read_and_warn(request.file, request.pieces, request.changes);
    const Laying laying = lay_and_warn(layout);
    const LayingReport report = report_laying(layout, laying, kProgram, fnv1a(kProgram, source_hash(layout)));
    std::optional<LayingFaults> faults;
    if (holds(request.with, "faults")) faults = find_faults(layout, laying);
    const LayingFaults* const told = faults ? &*faults : nullptr;
    const Overlays overlays{holds(request.with, "guides"), holds(request.with, "outlines"),
                            holds(request.with, "names"), told};
    const auto wanted = [&](const char* what) { return request.only.empty() || holds(request.only, what); };

    const Tracing colours = colour_drawing(layout, laying, report, overlays);
    const double px_per_mm = fineness(colours, request.px_per_mm);  // refuses before anything is written
    FinishedFiles files(finished_folder(request.into, request.file, request.changes), !request.json);
    if (wanted("colours")) write_drawing(files, "laying", colours, px_per_mm);
    if (wanted("joints")) {
        const Tracing joints = joint_drawing(layout, laying, report, overlays);
        write_drawing(files, "joints", joints, fineness(joints, request.px_per_mm));
    }
    std::optional<LayingMap> map;
    if (wanted("map")) {
        map = make_map(layout, laying, report, papers);
        for (std::size_t i = 0; i < map->pages.size(); ++i)
            write_drawing(files, fmt::format("map-{}", i + 1), map->pages[i],
                          fineness(map->pages[i], request.px_per_mm, kMapFineness_px_per_mm));
    }
    if (wanted("pieces")) {
        files.text("pieces.csv", piece_table_csv(layout, laying, report.facts));
        files.text("pieces.json",
                   piece_table_json(layout, laying, report.facts, hash_digits(report.scene_hash)));
    }
    const std::string json = files.record(
        "laying.json", laying_json(layout, laying, report, map ? &*map : nullptr, told, files.names()));
    if (request.json)
        fmt::print("{}", json);
    else
        print_numbers(layout, report);
    if (told && !request.json) {
        const std::string line = faults_in_words(layout, laying, *told);
        fmt::print("Faults: {}\n", line.empty() ? "none" : line);
    }
}

}  // namespace

void add_lay(CLI::App& app) {
    auto* command = app.add_subcommand("lay", "Draw a layout as laid, number its pieces and list them");
    const auto r = std::make_shared<LayRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_pieces(*command, r->pieces);
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "laying.json");
    command
        ->add_option("--with", r->with,
                     "Draw these over the pieces: guides, outlines, names (of the fields), faults")
        ->type_name("WHAT,..")
        ->delimiter(',');
    command->add_option("--only", r->only, "Write only these: colours, joints, map, pieces")
        ->type_name("WHAT,..")
        ->delimiter(',');
    command
        ->add_option(
            "--paper", r->paper,
            "Paper of the map: A4, A3, A2, A1 or A0; otherwise A3, or larger where it takes too many pages")
        ->type_name("SIZE");
    command
        ->add_option("--px-per-mm", r->px_per_mm,
                     "Fineness of the PNGs; 0 = about 2800 pixels along the longer side")
        ->check(in_range(0, 100))
        ->capture_default_str();
    command->footer(
        "Writes, as SVG at 1:1 in millimetres and as PNG:\n"
        "  laying    the pieces in stock colours over their bed, face-on in daylight\n"
        "  joints    the joints alone, to judge how rows flow\n"
        "  map-1 ..  a key, then numbered sheets: on each piece a letter (material) and\n"
        "            a number (within the field)\n"
        "and pieces.csv, pieces.json (every piece and stone; either can be edited and given back by --pieces "
        "or\n"
        "the layout's key `pieces`) and laying.json (counts, areas, joint shares, weights). No light is "
        "traced.\n\n"
        "Examples:\n"
        "  rakelight lay tide.yaml --with guides,outlines\n"
        "  rakelight lay tide.yaml --only joints --px-per-mm 12\n"
        "  rakelight lay tide.yaml --only joints --with faults\n"
        "  rakelight preview tide.yaml --pieces renders/tide/pieces.csv");
    command->callback([r] { lay_out(*r); });
}

}  // namespace rakelight
