// Where the time goes from a layout file to the first ray: seconds elapsed and seconds of processor time of
// each step, median of five. `start_bench [layout.yaml]`
#include <fmt/format.h>
#include <time.h>

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <vector>

#include "output/film/begun_film.h"
#include "output/film/scene_hash.h"
#include "output/preview/lit_rooms.h"
#include "output/preview/picture_notes.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace {

using namespace rakelight;

constexpr double kCoarse_mm = 4.8;

double seconds(clockid_t clock) {
    timespec t{};
    clock_gettime(clock, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

struct Step {
    std::string name;
    std::vector<double> elapsed_s, processor_s;
};

// Keeps what each step took, in the order in which they were first told.
class Clock {
  public:
    void told(const std::string& name) {
        auto step = std::find_if(steps_.begin(), steps_.end(), [&](const Step& s) { return s.name == name; });
        if (step == steps_.end()) step = steps_.insert(step, {name, {}, {}});
        step->elapsed_s.push_back(seconds(CLOCK_MONOTONIC) - elapsed_s_);
        step->processor_s.push_back(seconds(CLOCK_PROCESS_CPUTIME_ID) - processor_s_);
        start();
    }
    void start() {
        elapsed_s_ = seconds(CLOCK_MONOTONIC);
        processor_s_ = seconds(CLOCK_PROCESS_CPUTIME_ID);
    }
    void print() const {
        const auto median = [](std::vector<double> v) {
            std::sort(v.begin(), v.end());
            return v[v.size() / 2];
        };
        double elapsed = 0, processor = 0;
        for (const Step& s : steps_) {
            fmt::print("{:>24}{:>8.0f} ms elapsed{:>8.0f} ms of processors\n", s.name,
                       1000 * median(s.elapsed_s), 1000 * median(s.processor_s));
            elapsed += median(s.elapsed_s);
            processor += median(s.processor_s);
        }
        fmt::print("{:>24}{:>8.0f} ms elapsed{:>8.0f} ms of processors\n", "together", 1000 * elapsed,
                   1000 * processor);
    }

  private:
    std::vector<Step> steps_;
    double elapsed_s_ = 0, processor_s_ = 0;
};

}  // namespace

int main(int count, char** words) {
    const std::string file = count > 1 ? words[1] : RAKELIGHT_SCENES "/low-tide.yaml";
    Clock clock;
    for (int run = 0; run < 5; ++run) {
        clock.start();
        const Layout layout = read_layout(file);
        clock.told("reading");
        const Laying laying = lay(layout);
        clock.told("laying");
        const World world = build_world(layout, laying);
        clock.told("world");
        const Bvh bvh(world);
        clock.told("tree");
        Picture picture = layout.views.pictures.front();
        const PictureNotes notes = notes_of(layout, world, bvh, picture, 1);
        clock.told("light meter");
        picture.width_px = std::max(1, picture.width_px / 4);
        picture.height_px = std::max(1, picture.height_px / 4);
        picture.most_samples = 1;
        RenderOptions options;
        options.card_cd_per_m2 = card_cd_per_m2(notes);
        const Film film = render(world, bvh, layout, picture, options);
        clock.told("a quarter, one path each");
        const World coarse = build_world(layout, laying, nullptr, kCoarse_mm);
        clock.told("(coarse world)");
        const Bvh quick(coarse, true);
        clock.told("(its quick tree)");
        render(coarse, quick, layout, picture, options);
        clock.told("(a quarter in it)");
        build_of_this_program();
        clock.told("(mark of the build)");
        if (run == 0)
            fmt::print("{} pieces, {:.2f} million triangles, coarse {:.2f} million\n", laying.pieces.size(),
                       1e-6 * static_cast<double>(world.triangles.size()),
                       1e-6 * static_cast<double>(coarse.triangles.size()));
    }
    clock.print();
}
