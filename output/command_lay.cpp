// `rakelight lay`: drawings and lists of a layout as laid, in seconds.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "output/commands.h"
#include "output/errors.h"
#include "output/interrupt.h"
#include "output/laying_drawing.h"
#include "output/laying_json.h"
#include "output/picture_writer.h"
#include "output/safe_file.h"
#include "output/scene_hash.h"
#include "scene/laying.h"
#include "scene/layout_reader.h"
#include "scene/nearest_word.h"
#include "scene/piece_table.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr double kMostSide_px = 16384;
constexpr double kUsualSide_px = 2800;
constexpr double kMapFineness_px_per_mm = 5.5;  // small figures stay legible

struct LayRequest {
    std::string file;
    std::string pieces;
    std::string into = kFinishedFolder;
    std::vector<std::string> with;
    std::vector<std::string> only;
    std::string paper;
    double px_per_mm = 0;
};

bool has(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

void check_words(const char* option, const std::vector<std::string>& words,
                 const std::vector<std::string>& known) {
    for (const std::string& word : words)
        if (!has(known, word))
            throw RequestError(fmt::format("{} {}: expected {}{}", option, word, fmt::join(known, ", "),
                                           did_you_mean(word, known)));
}

/// Writes one thing after another, and remembers their names.
class Folder {
  public:
    Folder(fs::path folder, double px_per_mm) : folder_(std::move(folder)), px_per_mm_(px_per_mm) {
        make_writable_folder(folder_);
    }

    void drawing(const std::string& name, const Tracing& drawing, double least_px_per_mm = 0.5) {
        text(name + ".svg", tracing_svg(drawing));
        write_png(begin(name + ".png"), print_tracing(drawing, fineness(drawing, least_px_per_mm)),
                  {{"Software", kProgram}, {"Title", drawing.title}, {"Description", drawing.note}});
    }
    void text(const std::string& name, const std::string& bytes) { write_file(begin(name), bytes); }
    const std::vector<std::string>& names() const { return names_; }

    double fineness(const Tracing& drawing, double least_px_per_mm = 0.5) const {
        const double side = std::max(drawing.size_mm.x, drawing.size_mm.y);
        if (px_per_mm_ * side > kMostSide_px)
            throw RequestError(
                fmt::format("--px-per-mm {:g}: expected at most {:.3g} for a sheet of {:.0f} mm", px_per_mm_,
                            std::floor(1000 * kMostSide_px / side) / 1000, side));
        return px_per_mm_ > 0 ? px_per_mm_ : std::clamp(kUsualSide_px / side, least_px_per_mm, 12.0);
    }

  private:
    fs::path begin(const std::string& name) {
        stop_if_interrupted();
        names_.push_back(name);
        fmt::print("{}\n", (folder_ / name).string());
        return folder_ / name;
    }

    fs::path folder_;
    double px_per_mm_;
    std::vector<std::string> names_;
};

void print_numbers(const Layout& layout, const LayingReport& report) {
    fmt::print("{}: {}\n", layout.name, sheet_facts(layout, report));
    fmt::print("{:<28}{:>8}{:>12}{:>10}{:>10}\n", "", "pieces", "face cm2", "joints %", "g");
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const LaidField& field = report.fields[f];
        fmt::print("{:<28}{:>8}{:>12.1f}{:>10.1f}{:>10.0f}\n", layout.fields[f].name, field.count,
                   field.area_mm2 / 100, 100 * field.joint_share(), field.mass_g);
        for (const LaidCount& c : field.materials)
            fmt::print("  {:<3}{:<23}{:>8}{:>12.1f}{:>10}{:>10.0f}\n", report.code[c.material],
                       layout.stock[c.material].name, c.count, c.area_mm2 / 100, "", c.mass_g);
    }
    if (report.stone_count)
        fmt::print("{:<28}{:>8}{:>12.1f}\n", "stones", report.stone_count, report.stone_mm2 / 100);
}

void lay_out(const LayRequest& request) {
    check_words("--with", request.with, {"guides", "outlines", "names"});
    check_words("--only", request.only, {"colours", "joints", "map", "pieces"});
    const std::vector<MapPaper> papers =
        request.paper.empty() ? usual_papers() : std::vector{paper_called(request.paper)};
    const Layout layout = read_layout(request.file, request.pieces);
    const Laying laying = lay(layout);
    for (const auto* warnings : {&layout.warnings, &laying.warnings})
        for (const std::string& warning : *warnings) fmt::print(stderr, "Warning: {}\n", warning);
    stop_if_interrupted();
    const LayingReport report = report_laying(layout, laying, kProgram, fnv1a(kProgram, source_hash(layout)));
    const Overlays overlays{has(request.with, "guides"), has(request.with, "outlines"),
                            has(request.with, "names")};
    const auto wanted = [&](const char* what) { return request.only.empty() || has(request.only, what); };

    Folder folder(fs::path(request.into) / file_stem(fs::path(request.file).stem().string()),
                  request.px_per_mm);
    const Tracing colours = colour_drawing(layout, laying, report, overlays);
    folder.fineness(colours);  // refuses before anything is written
    if (wanted("colours")) folder.drawing("laying", colours);
    if (wanted("joints")) folder.drawing("joints", joint_drawing(layout, laying, report, overlays));
    std::optional<LayingMap> map;
    if (wanted("map")) {
        map = make_map(layout, laying, report, papers);
        for (std::size_t i = 0; i < map->pages.size(); ++i)
            folder.drawing(fmt::format("map-{}", i + 1), map->pages[i], kMapFineness_px_per_mm);
    }
    if (wanted("pieces")) {
        folder.text("pieces.csv", piece_table_csv(layout, laying, report.facts));
        folder.text("pieces.json", piece_table_json(layout, laying, report.facts));
    }
    const std::vector<std::string> beside = folder.names();
    folder.text("laying.json", laying_json(layout, report, map ? &*map : nullptr, beside));
    print_numbers(layout, report);
}

}  // namespace

void add_lay(CLI::App& app) {
    auto* command = app.add_subcommand("lay", "Draw a layout as laid, number its pieces and list them");
    const auto r = std::make_shared<LayRequest>();
    command->add_option("FILE", r->file, "The layout file")->required();
    command->add_option("--pieces", r->pieces, kPiecesHelp)->type_name("FILE");
    command
        ->add_option("--into", r->into,
                     "Folder for the finished files; a folder named after the layout is made in it")
        ->type_name("DIR")
        ->capture_default_str();
    command
        ->add_option("--with", r->with, "Draw these over the pieces: guides, outlines, names (of the fields)")
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
                     "Fineness of the PNGs; 0 = some 2800 pixels along the longer side")
        ->check(CLI::Range(0.0, 100.0))
        ->capture_default_str();
    command->footer(
        "Writes, as SVG at 1:1 in millimetres and as PNG:\n"
        "  laying    the pieces in their stock colours as laid over their bed, face-on in daylight\n"
        "  joints    the net of the joints alone, to judge how rows flow\n"
        "  map-1 ..  a key, then pages with a letter (material) and a number (within the field) on each "
        "piece\n"
        "and pieces.csv, pieces.json (every piece and stone; either can be edited and given back by --pieces "
        "or\n"
        "the layout's key `pieces`) and laying.json (counts, areas, joint shares, weights). No light is "
        "traced.\n\n"
        "Examples:\n"
        "  rakelight lay tide.yaml --with guides,outlines\n"
        "  rakelight lay tide.yaml --only joints --px-per-mm 12\n"
        "  rakelight preview tide.yaml --pieces renders/tide/pieces.csv");
    command->callback([r] { lay_out(*r); });
}

}  // namespace rakelight
