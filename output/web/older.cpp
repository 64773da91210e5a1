#include "output/web/older.h"

#include <algorithm>
#include <set>

#include "output/film/scene_hash.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

fs::file_time_type last_change(const Layout& layout) {
    fs::file_time_type last = fs::last_write_time(layout.sources.path);
    for (const std::string& file : layout.sources.files) last = std::max(last, fs::last_write_time(file));
    return last;
}

// Of everything that is made of the layout as it is now, as far as the command line did not ask for other
// sizes.
std::set<std::string> hashes_of(const Layout& layout, const std::string& program) {
    const std::uint64_t sources = source_hash(layout);
    std::set<std::string> hashes{hash_digits(fnv1a(program, sources))};
    for (Picture picture : layout.views.pictures) {
        hashes.insert(hash_digits(scene_hash(sources, program, picture)));
        for (const Lighting& light : layout.set_ups) {
            picture.light = light.name;
            hashes.insert(hash_digits(scene_hash(sources, program, picture)));
        }
    }
    return hashes;
}

}  // namespace

void mark_older(RunFolder& run, const fs::path& folder, const Layout& layout, const std::string& program) {
    const fs::file_time_type changed = last_change(layout);
    const std::set<std::string> now = hashes_of(layout, program);
    const auto older = [&](const std::string& file, const std::string& hash) {
        return !now.contains(hash) && fs::last_write_time(folder / file) < changed;
    };
    run.older_than = fs::path(layout.sources.path).filename().string();
    for (RunPart& part : run.parts) {
        for (ShownFile& shown : part.shown) shown.older = older(shown.file, shown.scene_hash);
        if (!part.board.empty()) part.board_older = older(part.board, part.board_hash);
    }
}

}  // namespace rakelight
