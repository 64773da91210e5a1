// `rakelight takeoff`: what to buy, mix, mask, wait for, anchor and carry.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "output/commands.h"
#include "output/errors.h"
#include "output/interrupt.h"
#include "output/picture_writer.h"
#include "output/safe_file.h"
#include "output/scene_hash.h"
#include "output/take_off_json.h"
#include "output/take_off_sheet.h"
#include "output/tracing_pdf.h"
#include "output/zone_templates.h"
#include "scene/layout_reader.h"
#include "scene/nearest_word.h"
#include "scene/read_workshop.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr double kSheetFineness_px_per_mm = 8;
const std::vector<std::string> kParts{"sheet", "lists", "templates", "drawing"};

struct TakeOffRequest {
    std::string file;
    std::string pieces;
    std::string into = kFinishedFolder;
    std::vector<std::string> only;
    std::string paper;
    bool wants(const std::string& part) const {
        return only.empty() || std::find(only.begin(), only.end(), part) != only.end();
    }
};

void check_words(const TakeOffRequest& request) {
    for (const std::string& word : request.only)
        if (std::find(kParts.begin(), kParts.end(), word) == kParts.end())
            throw RequestError(fmt::format("--only {}: expected sheet, lists, templates, drawing{}", word,
                                           did_you_mean(word, kParts)));
    if (!request.paper.empty() && !paper_size(request.paper))
        throw RequestError(fmt::format("--paper {}: expected A4, A3 or Letter", request.paper));
}

/// Writes one file after another and remembers their names.
class Out {
  public:
    explicit Out(fs::path folder) : folder_(std::move(folder)) { make_writable_folder(folder_); }
    void text(const std::string& name, const std::string& bytes) { write_file(begin(name), bytes); }
    void pages(const std::string& name, const std::vector<Tracing>& pages) {
        text(name + ".pdf", tracings_pdf(pages, pages.empty() ? name : pages.front().title));
    }
    void picture(const std::string& name, const Tracing& page) {
        write_png(begin(name), print_tracing(page, kSheetFineness_px_per_mm),
                  {{"Software", kProgram}, {"Title", page.title}, {"Description", page.note}});
    }
    void tiled(const std::string& name, const TiledDrawing& drawing, const ZoneWishes& wishes) {
        pages(name, tiled_pages(drawing, wishes.paper, wishes.overlap_mm));
        text(name + ".svg", tracing_svg(one_sheet(drawing)));
    }
    const std::vector<std::string>& names() const { return names_; }
    void folder(const std::string& name) { make_writable_folder(folder_ / name); }

  private:
    fs::path begin(const std::string& name) {
        stop_if_interrupted();
        names_.push_back(name);
        fmt::print("{}\n", (folder_ / name).string());
        return folder_ / name;
    }
    fs::path folder_;
    std::vector<std::string> names_;
};

void print_numbers(const Layout& layout, const TakeOff& t) {
    fmt::print("{}: {:.1f} kg ({:.1f} to {:.1f}), centre of gravity {:.0f} mm off the wall\n", layout.name,
               t.weighing.likely_kg, t.weighing.low_kg, t.weighing.high_kg, t.weighing.off_wall_mm);
    fmt::print("{:<28}{:>8}{:>10}{:>10}{:>10}  {}\n", "", "pieces", "laid cm2", "buy cm2", "buy g", "packs");
    for (const Purchase& p : t.purchases)
        fmt::print("{:<28}{:>8}{:>10.0f}{:>10.0f}{:>10.0f}  {}\n", layout.stock[p.material].name,
                   p.pieces + p.stones, p.net_mm2 / 100, p.bought_mm2 / 100, p.bought_g, packs_text(p));
    for (const std::size_t z : t.order.order)
        fmt::print("Zone {}: {} ({}): {:.0f} cm3 of joint, mix {:.0f} g, spare {:.0f} g, {}\n", t.turn_of(z),
                   t.zones[z].name, t.zones[z].grout, t.zones[z].volume_mm3 / 1000, t.mixes[z].batch.mix_g,
                   t.mixes[z].batch.spare_g, pigments_text(t.mixes[z].batch));
    if (!t.anchors.empty())
        fmt::print("{} of {} stones want an anchor\n", t.anchors.size(), t.volumes.stone_field.size());
}

void take_off_files(const TakeOffRequest& request) {
    check_words(request);
    const Layout layout = read_layout(request.file, request.pieces);
    WorkshopWishes workshop = read_workshop(request.file, layout);
    if (!request.paper.empty()) workshop.zones.paper = *paper_size(request.paper);
    const Laying laying = lay(layout);
    for (const auto* warnings : {&layout.warnings, &laying.warnings})
        for (const std::string& warning : *warnings) fmt::print(stderr, "Warning: {}\n", warning);
    stop_if_interrupted();
    const TakeOff t = take_off(layout, laying, workshop,
                               makings_in(layout_file_text(request.file), request.file), stop_if_interrupted);
    for (const std::string& warning : t.warnings) fmt::print(stderr, "Warning: {}\n", warning);
    const LayingReport report = report_laying(layout, laying, kProgram, fnv1a(kProgram, source_hash(layout)));

    Out out(fs::path(request.into) / file_stem(fs::path(request.file).stem().string()));
    if (request.wants("sheet")) {
        const std::vector<Tracing> sheet = take_off_sheet(layout, laying, report, t);
        out.pages("take-off", sheet);
        for (std::size_t i = 0; i < sheet.size(); ++i)
            out.picture(fmt::format("take-off-{}.png", i + 1), sheet[i]);
    }
    if (request.wants("lists")) {
        out.text("take-off.csv", take_off_csv(layout, t));
        out.text("zones.csv", zones_csv(t));
    }
    if (request.wants("templates") || request.wants("drawing")) out.folder("templates");
    if (request.wants("drawing")) {
        out.tiled("templates/drawing", laying_cartoon(layout, laying, report, t, false), workshop.zones);
        out.tiled("templates/drawing-mirrored", laying_cartoon(layout, laying, report, t, true),
                  workshop.zones);
    }
    if (request.wants("templates"))
        for (const std::size_t z : t.order.order) {
            const std::string name = "templates/" + template_name(t, z);
            out.tiled(name, zone_template(layout, laying, report, t, z, false), workshop.zones);
            out.tiled(name + "-mirrored", zone_template(layout, laying, report, t, z, true), workshop.zones);
        }
    const std::vector<std::string> beside = out.names();
    out.text("take-off.json", take_off_json(layout, report, t, beside));
    print_numbers(layout, t);
}

}  // namespace

void add_takeoff(CLI::App& app) {
    auto* command =
        app.add_subcommand("takeoff", "Say what to buy, mix, mask, anchor and carry; templates at 1:1");
    const auto r = std::make_shared<TakeOffRequest>();
    command->add_option("FILE", r->file, "The layout file")->required();
    command->add_option("--pieces", r->pieces, kPiecesHelp)->type_name("FILE");
    command
        ->add_option("--into", r->into,
                     "Folder for the finished files; a folder named after the layout is made in it")
        ->type_name("DIR")
        ->capture_default_str();
    command->add_option("--only", r->only, "Write only these: sheet, lists, templates, drawing")
        ->type_name("WHAT,..")
        ->delimiter(',');
    command->add_option("--paper", r->paper, "Paper of the templates: A4, A3 or Letter")->type_name("SIZE");
    command->footer(
        "Writes\n"
        "  take-off.pdf, take-off-1.png ..  materials, beds, grout zones, day plan, weight, anchors, "
        "cautions\n"
        "  take-off.csv, zones.csv, take-off.json\n"
        "  templates/   the drawing and a mask for each grout zone at 1:1, face up and mirrored: PDF in "
        "sheets\n"
        "               that register on crosses, SVG in one\n"
        "The sections take-off, zones and hanging of the layout set waste, water, spares, paper and so "
        "on.\n\n"
        "Examples:\n"
        "  rakelight takeoff tide.yaml\n"
        "  rakelight takeoff tide.yaml --only templates --paper A3");
    command->callback([r] { take_off_files(*r); });
}

}  // namespace rakelight
