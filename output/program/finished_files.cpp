#include "output/program/finished_files.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/film/sealed_json.h"
#include "output/program/commands.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"

namespace rakelight {

FinishedFiles::FinishedFiles(std::filesystem::path folder, bool told)
    : folder_(std::move(folder)), told_(told) {
    make_writable_folder(folder_);
}

void FinishedFiles::add(const std::string& name,
                        const std::function<void(const std::filesystem::path&)>& write) {
    stop_if_interrupted();
    if (std::find(names_.begin(), names_.end(), name) != names_.end())
        throw RequestError(
            fmt::format("two things of this layout would be written to the same file {}; rename one of "
                        "them: a set-up of light, a viewpoint or a zone",
                        (folder_ / name).string()));
    write(folder_ / name);
    names_.push_back(name);
    if (told_) fmt::print("{}\n", (folder_ / name).string());
}

void FinishedFiles::text(const std::string& name, const std::string& bytes) {
    add(name, [&](const std::filesystem::path& path) { write_file(path, bytes); });
}

std::string FinishedFiles::record(const std::string& name, const std::string& json) {
    std::string sealed = sealed_json(json, folder_);
    text(name, sealed);
    return sealed;
}

void FinishedFiles::picture(const std::string& name, const Print& print, const PictureText& about,
                            std::optional<int> dpi) {
    add(name,
        [&](const std::filesystem::path& path) { write_png(path, print, about, PrintDepth::bits8, dpi); });
}

void FinishedFiles::drawing(const std::string& name, const Tracing& tracing, double px_per_mm) {
    picture(name, print_tracing(tracing, px_per_mm),
            {{"Software", kProgram}, {"Title", tracing.title}, {"Description", tracing.note}});
}

}  // namespace rakelight
