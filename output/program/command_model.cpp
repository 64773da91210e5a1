// `rakelight model`: the laid panel in the round, for other programs.
#include <fmt/format.h>

#include <memory>

#include "output/film/scene_hash.h"
#include "output/model/gltf.h"
#include "output/model/json.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/read_and_warn.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kUsualDetail_mm = 0.2, kMostDetail_mm = 5;
constexpr double kUsualMost_mb = 60;

struct ModelRequest {
    std::string file;
    std::vector<std::string> changes;
    std::string pieces;
    std::string into = kFinishedFolder;
    double detail_mm = kUsualDetail_mm;
    double most_mb = kUsualMost_mb;
    bool json = false;
};

struct MadeModel {
    Model model;
    std::string glb;
};

// Coarser until it is small enough.
MadeModel make_within(const Layout& layout, const Laying& laying, const LayingReport& report,
                      const ModelRequest& request) {
    const MadeFrom from = made_from(layout, kProgram);
    for (double detail_mm = request.detail_mm;; detail_mm = std::max(1.5 * detail_mm, 0.02)) {
        stop_if_interrupted();
        MadeModel made{make_model(layout, laying, report, detail_mm), {}};
        made.glb = model_glb(made.model, from);
        const double mb = static_cast<double>(made.glb.size()) / 1e6;
        if (mb <= request.most_mb) {
            if (detail_mm > request.detail_mm)
                fmt::print(stderr, "Note: --detail {:g} would take more than {:g} MB; made with {:.2g} mm\n",
                           request.detail_mm, request.most_mb, detail_mm);
            return made;
        }
        if (detail_mm >= kMostDetail_mm)
            throw RequestError(
                fmt::format("--most-mb {:g}: found {:.1f} MB at a detail of {:g} mm, expected room for that",
                            request.most_mb, mb, detail_mm));
    }
}

void model(const ModelRequest& request) {
    const Layout layout = read_and_warn(request.file, request.pieces, request.changes);
    const Laying laying = lay_and_warn(layout);
    const MadeFrom from = made_from(layout, kProgram);
    const LayingReport report = report_laying(layout, laying, kProgram, *from.scene_hash);
    const MadeModel made = make_within(layout, laying, report, request);
    FinishedFiles files(finished_folder(request.into, request.file, request.changes), !request.json);
    files.text("model.glb", made.glb);
    const std::string json =
        files.record("model.json", model_json(made.model, made.glb.size(), from, files.names()));
    if (request.json)
        fmt::print("{}", json);
    else
        fmt::print("{} triangles in {} materials, {:.1f} MB\n", triangle_count(made.model),
                   made.model.materials.size(), static_cast<double>(made.glb.size()) / 1e6);
}

}  // namespace

void add_model(CLI::App& app) {
    auto* command =
        app.add_subcommand("model", "Write the laid panel in the round, for phones and architects (glTF)");
    const auto r = std::make_shared<ModelRequest>();
    add_layout_file(*command, r->file);
    add_set(*command, r->changes);
    add_pieces(*command, r->pieces);
    add_into(*command, r->into);
    limit_threads(*command);
    add_json(*command, r->json, "model.json");
    command
        ->add_option("--detail", r->detail_mm,
                     "How far triangles may stray from the true form, in mm; 0 = every triangle")
        ->check(in_range(0, kMostDetail_mm))
        ->capture_default_str();
    command->add_option("--most-mb", r->most_mb, "Coarser than that where the file would be larger than this")
        ->check(in_range(0.1, 2000))
        ->capture_default_str();
    command->footer(
        "Writes model.glb, a glTF 2.0 file in metres with a node for the pieces of each field, one for the "
        "stones, for "
        "the joints of each tint, for the board and for the frame; and model.json, its sizes, counts and "
        "colours. "
        "Colours are those of `lay`, face-on in daylight. No light is traced.\n\n"
        "Examples:\n"
        "  rakelight model tide.yaml\n"
        "  rakelight model tide.yaml --detail 0.3 --most-mb 15     (for a phone)");
    command->callback([r] { model(*r); });
}

}  // namespace rakelight
