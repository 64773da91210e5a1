// `rakelight samples`: stock of one's own from photographs with the 24-patch chart in them.
#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "materials/maths/hash.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/samples/json.h"
#include "output/samples/sheet.h"
#include "output/samples/stock_text.h"
#include "output/samples/understand.h"
#include "output/system/day.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

struct SamplesRequest {
    std::string file;
    std::string into = kFinishedFolder;
};

std::string day_in_figures(const std::chrono::year_month_day& day) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                       static_cast<unsigned>(day.day()));
}

std::uint64_t hash_of(const SampleFile& file) {
    std::uint64_t hash = hash_combine(hash_text(kProgram), hash_text(read_file(file.path)));
    for (const PhotographSaid& p : file.photographs)
        hash = hash_combine(hash, hash_text(read_file(p.picture)));
    return hash;
}

void samples(const SamplesRequest& request) {
    SampleFile file = read_sample_file(request.file);
    if (file.date.empty()) file.date = day_in_figures(today());
    const SamplesReport report = understand(file, kProgram);
    for (const std::string& warning : report.warnings) fmt::print(stderr, "Warning: {}\n", warning);
    const std::vector<PdfPage> sheet = samples_sheet(report);
    FinishedFiles finished(finished_folder(request.into, request.file));
    finished.text(file_stem(std::filesystem::path(request.file).stem().string() + "-stock") + ".yaml",
                  stock_text(report));
    for (std::size_t i = 0; i < sheet.size(); ++i)
        finished.picture(sheet.size() == 1 ? "samples.png" : fmt::format("samples-{}.png", i + 1),
                         print_samples_page(sheet[i]),
                         {{"Software", kProgram}, {"Description", "stock from photographs"}});
    finished.add("samples.pdf", [&](const std::filesystem::path& path) {
        write_pdf(path, sheet, "Stock from photographs", "", kProgram);
    });
    finished.record("samples.json", samples_json(report, hash_of(file), finished.names()));
}

}  // namespace

void add_samples(CLI::App& app) {
    auto* command =
        app.add_subcommand("samples", "Read stock of your own from photographs with a 24-patch chart");
    const auto r = std::make_shared<SamplesRequest>();
    command->add_option("file", r->file, "What lies where in which photograph, YAML")
        ->type_name("SAMPLES.yaml")
        ->required();
    add_into(*command, r->into);
    command->footer(
        "Writes NAME-stock.yaml, a library that layouts name by `stock from:`, a\n"
        "sheet (samples.png, samples.pdf) with every sample as photographed, as\n"
        "understood and as it renders, and samples.json.\n\n"
        "  date: 2026-11-27\n"
        "  photographs:\n"
        "    - picture: north-window.jpg\n"
        "      chart: {corners: [[412, 300], [1210, 310], [1205, 850], [408, 842]]}\n"
        "      white card: [300, 1000, 200, 150]\n"
        "      black card: [600, 1000, 200, 150]\n"
        "      samples:\n"
        "        - {name: lagoon, rectangle: [1400, 300, 120, 120], over: white}\n"
        "        - {name: lagoon, rectangle: [1600, 300, 120, 120], over: black}\n"
        "        - {name: dry grout, rectangle: [1400, 600, 120, 120]}\n"
        "  samples:\n"
        "    lagoon: {kind: glass, thickness: 3 mm}\n"
        "    dry grout: {kind: cement}\n\n"
        "Examples:\n"
        "  rakelight samples my-glass.yaml\n"
        "  rakelight samples my-glass.yaml --into stock");
    command->callback([r] { samples(*r); });
}

}  // namespace rakelight
