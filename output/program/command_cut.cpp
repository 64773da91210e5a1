// `rakelight cut`: sectile shapes at 1:1 for a machine.
#include <fmt/format.h>

#include <map>
#include <memory>

#include "output/cut/drawing.h"
#include "output/cut/dxf.h"
#include "output/cut/json.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/parse_options.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kUsualKerf_mm = 1, kUsualApart_mm = 5;  // common practice, no published source

struct CutRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string pieces;
    std::string into = kFinishedFolder;
    double kerf_mm = kUsualKerf_mm;
    double apart_mm = kUsualApart_mm;
    std::string slab = "600x400";
    bool json = false;
};

// One of a material: "cut-slate"; several: "cut-slate-1" ..
std::vector<std::string> slab_names(const Layout& layout, const std::vector<CutSlab>& slabs) {
    std::map<std::uint32_t, std::size_t> of, nth;
    for (const CutSlab& slab : slabs) ++of[slab.material];
    std::vector<std::string> names;
    for (const CutSlab& slab : slabs) {
        const std::string stem = "cut-" + file_stem(layout.stock[slab.material].name);
        names.push_back(of[slab.material] > 1 ? fmt::format("{}-{}", stem, ++nth[slab.material]) : stem);
    }
    return names;
}

void cut(const CutRequest& request) {
    const Layout layout = read_and_warn(request.file, request.pieces, request.changes);
    const glm::ivec2 slab = parse_slab(request.slab);
    const Laying laying = lay_and_warn(layout);
    CutPlan plan{
        request.kerf_mm, request.apart_mm, slab, cut_shapes(layout, laying, request.kerf_mm), {}, {}};
    if (plan.shapes.empty())
        throw RequestError(fmt::format(
            "{}: fields: found none with shapes to cut, expected one of opus: sectile", layout.sources.path));
    plan.slabs = spread_on_slabs(plan.shapes, plan.slab_mm, plan.apart_mm);
    plan.slab_names = slab_names(layout, plan.slabs);
    FinishedFiles files(finished_folder(request.into, request.file, request.changes), !request.json);
    for (std::size_t s = 0; s < plan.slabs.size(); ++s) {
        const CutSlab& one = plan.slabs[s];
        const std::string title =
            fmt::format("{}: {}, {:g} mm thick, kerf {:g} mm", layout.panel.name,
                        layout.stock[one.material].name, one.thickness_mm, plan.kerf_mm);
        files.text(plan.slab_names[s] + ".dxf", slab_dxf(one, plan.shapes, plan.slab_mm));
        files.text(plan.slab_names[s] + ".svg",
                   tracing_svg(slab_drawing(one, plan.shapes, plan.slab_mm, title)));
    }
    const std::string json =
        files.record("cut.json", cut_json(layout, plan, made_from(layout, kProgram), files.names()));
    if (request.json)
        fmt::print("{}", json);
    else
        fmt::print("{} shapes on {} slab{}\n", plan.shapes.size(), plan.slabs.size(),
                   plan.slabs.size() == 1 ? "" : "s");
}

}  // namespace

void add_cut(CLI::App& app) {
    auto* command = app.add_subcommand("cut", "Write sectile shapes at 1:1 for a cutting machine (DXF, SVG)");
    const auto r = std::make_shared<CutRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_pieces(*command, r->pieces);
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "cut.json");
    command->add_option("--kerf", r->kerf_mm, "Width of what the jet or blade takes away, in mm")
        ->check(in_range(0, 10))
        ->capture_default_str();
    command->add_option("--apart", r->apart_mm, "Least room between two cuts, and to the slab's edge, in mm")
        ->check(in_range(0, 100))
        ->capture_default_str();
    command->add_option("--slab", r->slab, "Width and height of a slab, in mm")
        ->type_name("WxH")
        ->capture_default_str();
    command->footer(
        "Writes cut-MATERIAL.dxf (R12, millimetres) and cut-MATERIAL.svg for each slab, and cut.json. Lines "
        "are the "
        "middle of the kerf, half of it outside the piece, so that pieces come out as laid. Shapes lie as on "
        "the panel, "
        "not turned, sorted by material and thickness; names are on a layer of their own, not to be cut.\n\n"
        "Examples:\n"
        "  rakelight cut foyer.yaml --kerf 0.8\n"
        "  rakelight cut foyer.yaml --kerf 1.1 --slab 1200x800");
    command->callback([r] { cut(*r); });
}

}  // namespace rakelight
