// `rakelight stock`: a sheet of every material and tint of a layout.
#include <fmt/format.h>

#include <memory>

#include "output/film/json_head.h"
#include "output/preview/lit_pictures.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/read_and_warn.h"
#include "output/stock/json.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

struct StockRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string into = kFinishedFolder;
    std::vector<std::string> lamps;
    std::vector<std::string> lights;
    bool json = false;
};

void check_lamps(const Layout& layout, const std::vector<std::string>& names) {
    const std::vector<std::string> known = light_names(layout);
    for (const std::string& name : names)
        if (std::find(known.begin(), known.end(), name) == known.end())
            throw RequestError(fmt::format("{} has no lamp or lamp group called {}{}", layout.sources.path,
                                           name, did_you_mean(name, known)));
}

// Illuminance on the panel from each lamp and window alone, the room's answer included.
std::vector<double> meter(const Layout& layout, const Laying& laying,
                          const std::vector<std::string>& wanted) {
    const World world = build_world(layout, laying);
    stop_if_interrupted();
    const Bvh bvh(world);
    std::vector<double> lux;
    for (std::size_t i = 0; i < world.emitters.size(); ++i) {
        const auto is = [&](const std::string& name) {
            return name == world.emitter_names[i] || name == world.groups[world.emitters[i].group];
        };
        double total = 0;
        if ((wanted.empty() || std::any_of(wanted.begin(), wanted.end(), is)) &&
            world.emitters[i].peak_cd_per_m2 > 0)
            for (const glm::dvec3& xyz : panel_illuminance_xyz(world, bvh, std::span(&world.emitters[i], 1)))
                total += xyz.y;
        lux.push_back(total);
        stop_if_interrupted();
    }
    return lux;
}

// `stem` of the files: "stock", or with the name of the light.
void write_stock(const Layout& layout, const Laying& laying, const StockRequest& request,
                 FinishedFiles& finished, const std::string& stem) {
    StockReport report = report_stock(layout, laying, meter(layout, laying, request.lamps), kProgram);
    if (layout.on.name != kOwnLight) report.lights.front().title = layout.on.name;
    if (!request.lamps.empty())
        report.lights.front().title = fmt::format("{}", fmt::join(request.lamps, ", "));
    const SwatchSheet sheet = make_swatch_sheet(report);
    std::vector<std::string> files;
    for (std::size_t i = 0; i < sheet.pages.size(); ++i)
        files.push_back(sheet.pages.size() == 1 ? stem + ".png" : fmt::format("{}-{}.png", stem, i + 1));
    for (std::size_t i = 0; i < files.size(); ++i)
        finished.picture(
            files[i], print_page(sheet.pages[i], kSheet_px_per_mm),
            {{"Software", kProgram}, {"Description", "stock sheet: a rendering, not a photograph"}});
    const std::string json = finished.record(
        stem + ".json", stock_json(report, sheet, *made_from(layout, kProgram).scene_hash, files));
    if (request.json) fmt::print("{}", json);
}

void stock(const StockRequest& request) {
    find_drawing_on_paper(request.file, request.changes);
    const Layout layout = read_layout(request.file, {}, request.changes);
    std::vector<Layout> lit;
    for (const std::string& light : chosen_lights(layout, request.lights)) {
        lit.push_back(with_light(layout, light));
        check_lamps(lit.back(), request.lamps);
    }
    FinishedFiles finished(finished_folder(request.into, request.file, request.changes), !request.json);
    const Laying laying = lay(layout);
    const bool plain = request.lights.empty() && lit.size() == 1;
    for (const Layout& each : lit)
        write_stock(each, laying, request, finished, plain ? "stock" : file_stem("stock " + each.on.name));
}

}  // namespace

void add_stock(CLI::App& app) {
    auto* command = app.add_subcommand("stock", "Make a sheet of every material and tint of a layout");
    const auto r = std::make_shared<StockRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "stock.json, a text for each light");
    command->add_option("--lamps", r->lamps, "Only this lamp or lamp group; may be given again")
        ->type_name("NAME");
    command->add_option("--light", r->lights, kLightHelp)->type_name("NAME,..")->delimiter(',');
    command->footer(
        "Writes stock.png, or stock-1.png .. (A4), and stock.json: colours under the layout's lamps "
        "and\n"
        "under CIE A, D65 and LED-B3, gloss, weight, and where the data come from.\n\n"
        "Examples:\n"
        "  rakelight stock tide.yaml\n"
        "  rakelight stock tide.yaml --lamps spots --into evening");
    command->callback([r] { stock(*r); });
}

}  // namespace rakelight
