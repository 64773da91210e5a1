// `rakelight take-off`: what to buy, mix, mask, wait for, anchor and carry.
#include <fmt/format.h>

#include <memory>

#include "output/film/scene_hash.h"
#include "output/paper/tracing_pdf.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/parse_options.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "output/take_off/json.h"
#include "output/take_off/reckoning/section.h"
#include "output/take_off/sheet.h"
#include "output/take_off/zone_templates.h"
#include "scene/model/layout.h"
#include "scene/text/shown_amounts.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

constexpr double kSheetFineness_px_per_mm = 8;

struct TakeOffRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string pieces;
    std::string into = kFinishedFolder;
    std::vector<std::string> only;
    std::string paper;
    bool json = false;
    bool wants(const std::string& part) const { return only.empty() || holds(only, part); }
};

void check_request(const TakeOffRequest& request) {
    check_words("--only", request.only, {"sheet", "lists", "templates", "cartoon"});
    if (!request.paper.empty() && !paper_size(request.paper))
        throw RequestError(fmt::format("--paper {}: expected A4, A3 or Letter", request.paper));
}

void write_pages(FinishedFiles& files, const std::string& name, const std::vector<Tracing>& pages) {
    files.text(name + ".pdf", tracings_pdf(pages, pages.empty() ? name : pages.front().title));
}

void write_tiled(FinishedFiles& files, const std::string& name, const TiledDrawing& drawing,
                 const ZoneWishes& wishes) {
    write_pages(files, name, tiled_pages(drawing, wishes.paper, wishes.overlap_mm));
    files.text(name + ".svg", tracing_svg(one_sheet(drawing)));
}

void print_numbers(const Layout& layout, const TakeOff& t) {
    const Units units = layout.units;
    fmt::print("{}: {} ({} to {}), centre of gravity {} off the wall\n", layout.panel.name,
               shown_mass(t.weighing.likely_kg, units), shown_mass(t.weighing.low_kg, units),
               shown_mass(t.weighing.high_kg, units), shown_rounded(t.weighing.off_wall_mm, units));
    fmt::print("{:<28}{:>8}{:>10}{:>10}{:>10}  {}\n", "", "pieces", "laid " + area_unit(units),
               "buy " + area_unit(units), "buy " + small_mass_unit(units), "sheets, bags");
    for (const Purchase& p : t.purchases)
        fmt::print("{:<28}{:>8}{:>10}{:>10}{:>10}  {}\n", layout.stock[p.material].name, p.pieces + p.stones,
                   shown_area(p.net_mm2, units), shown_area(p.bought_mm2, units),
                   shown_small_mass(p.bought_g, units), packs_text(p, units));
    for (const std::size_t z : t.order.order)
        fmt::print("Zone {}: {} ({}): {:.0f} cm³ of joint, mix {:.0f} g, spare {:.0f} g, {}\n", t.step_of(z),
                   t.zones[z].name, t.zones[z].grout, t.zones[z].volume_mm3 / 1000, t.mixes[z].batch.mix_g,
                   t.mixes[z].batch.spare_g, pigments_text(t.mixes[z].batch));
    if (!t.anchors.empty())
        fmt::print("{} of {} stones want an anchor\n", t.anchors.size(), t.volumes.stone_field.size());
}

void take_off_files(const TakeOffRequest& request) {
    check_request(request);
    const Layout layout = read_and_warn(request.file, request.pieces, request.changes);
    WorkshopWishes workshop = read_workshop(layout);
    if (!request.paper.empty()) workshop.zones.paper = *paper_size(request.paper);
    const Laying laying = lay_and_warn(layout);
    const TakeOff t = take_off(layout, laying, workshop, makings_in(layout.sources), stop_if_interrupted);
    print_warnings(t.warnings);
    const LayingReport report = report_laying(layout, laying, kProgram, fnv1a(kProgram, source_hash(layout)));

    FinishedFiles files(finished_folder(request.into, request.file, request.changes), !request.json);
    if (request.wants("sheet")) {
        const std::vector<Tracing> sheet = take_off_sheet(layout, laying, report, t);
        write_pages(files, "take-off", sheet);
        for (std::size_t i = 0; i < sheet.size(); ++i)
            files.drawing(fmt::format("take-off-{}.png", i + 1), sheet[i], kSheetFineness_px_per_mm);
    }
    if (request.wants("lists")) {
        files.text("take-off.csv", take_off_csv(layout, t));
        files.text("zones.csv", zones_csv(t));
    }
    if (request.wants("templates") || request.wants("cartoon"))
        make_writable_folder(files.folder() / "templates");
    const auto write_both_ways = [&](const std::string& name, const auto& drawing) {
        write_tiled(files, name, drawing(false), workshop.zones);
        write_tiled(files, name + "-mirrored", drawing(true), workshop.zones);
    };
    if (request.wants("cartoon"))
        write_both_ways("templates/cartoon",
                        [&](bool mirrored) { return laying_cartoon(layout, laying, report, t, mirrored); });
    if (request.wants("templates"))
        for (const std::size_t z : t.order.order)
            write_both_ways("templates/" + template_name(t, z), [&](bool mirrored) {
                return zone_template(layout, laying, report, t, z, mirrored);
            });
    const std::string json = files.record("take-off.json", take_off_json(layout, report, t, files.names()));
    if (request.json)
        fmt::print("{}", json);
    else
        print_numbers(layout, t);
}

}  // namespace

void add_take_off(CLI::App& app) {
    auto* command =
        app.add_subcommand("take-off", "Say what to buy, mix, mask, anchor and carry; templates at 1:1");
    const auto r = std::make_shared<TakeOffRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_pieces(*command, r->pieces);
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "take-off.json");
    command->add_option("--only", r->only, "Write only these: sheet, lists, templates, cartoon")
        ->type_name("WHAT,..")
        ->delimiter(',');
    command->add_option("--paper", r->paper, "Paper of the templates: A4, A3 or Letter")->type_name("SIZE");
    command->footer(
        "Writes\n"
        "  take-off.pdf, take-off-1.png ..\n"
        "               materials, beds, grout zones, day plan, weight, anchors, cautions\n"
        "  take-off.csv, zones.csv, take-off.json\n"
        "  templates/   the cartoon and a mask for each grout zone at 1:1, face up and\n"
        "               mirrored: PDF in sheets that register on crosses, SVG in one\n"
        "The sections take-off, zones and hanging of the layout set waste, water, spares and paper.\n\n"
        "Examples:\n"
        "  rakelight take-off tide.yaml\n"
        "  rakelight take-off tide.yaml --only templates --paper A3");
    command->callback([r] { take_off_files(*r); });
}

}  // namespace rakelight
