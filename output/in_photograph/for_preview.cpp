#include "output/in_photograph/for_preview.h"

#include <fmt/format.h>

#include "output/in_photograph/deliver.h"
#include "output/in_photograph/section.h"
#include "output/system/errors.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "output/system/progress.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"
#include "scene/text/word_list.h"
#include "scene/world/world.h"

namespace rakelight {

std::vector<TakenPhotograph> open_photographs(const Layout& layout, const std::vector<std::string>& names) {
    std::vector<TakenPhotograph> taken;
    if (names.empty()) return taken;
    for (TakenPhotograph& photograph : read_wall_photographs(layout)) {
        if (!holds(names, photograph.said.name)) continue;
        for (const std::string& warning : photograph.warnings)
            fmt::print(stderr, "Warning: {}: {}\n", photograph.said.name, warning);
        taken.push_back(std::move(photograph));
    }
    return taken;
}

std::string camera_in_words(const TakenPhotograph& t) {
    return fmt::format("Photograph {}: camera {:.2f} m from the wall, {:.2f} m high, lens of {:.3g} mm{}",
                       t.said.name, t.eye_mm.z / 1000, t.eye_mm.y / 1000, t.focal_35mm,
                       t.focal_found ? " (found by the corners)" : "");
}

std::vector<TakenPhotograph> still_to_set_in(std::vector<TakenPhotograph> taken, const SettingIn& how) {
    if (how.skip_finished)
        std::erase_if(taken, [&](const TakenPhotograph& t) {
            const bool done = is_in_photograph_finished(t, hash_in_photograph(t, how.sources), how.folder);
            if (done)
                fmt::print(stderr, "Note: {} is finished, and nothing has changed\n", file_stem(t.said.name));
            return done;
        });
    return taken;
}

PrintInPhotograph set_into_photograph(const TakenPhotograph& t, const Layout& layout, const Laying& laying,
                                      int threads, bool quiet) {
    const std::optional<Laying> beside = lay_beside(layout);
    Progress progress(t.said.name, progress_kind(stderr, quiet));
    const HowToSetIn setting{threads, [&](double share) { progress.show(share); }, interrupted};
    try {
        return panel_in_photograph(t, layout, laying, beside ? &*beside : nullptr, setting);
    } catch (const PhotographError& error) {
        throw RequestError(fmt::format("{}: in photographs.{}.{}: {}", layout.sources.path, t.said.name,
                                       error.key, error.what()));
    }
}

void set_into_photographs(const std::vector<TakenPhotograph>& taken, const Layout& layout,
                          const Laying& laying, const SettingIn& how) {
    for (const TakenPhotograph& t : taken) {
        stop_if_interrupted();
        const PrintInPhotograph made = set_into_photograph(t, layout, laying, how.threads, how.quiet);
        MadeFrom from = made_from(layout, kProgram);
        from.scene_hash = hash_in_photograph(t, how.sources);
        const auto files = deliver_in_photograph(made, t, layout.panel.name, from, how.folder);
        if (how.json)
            fmt::print("{}", read_file(files.back()));
        else
            for (const std::filesystem::path& file : files) fmt::print("{}\n", file.string());
    }
}

}  // namespace rakelight
