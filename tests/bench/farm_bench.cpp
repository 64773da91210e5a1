// What splitting a picture among 1 to 10,000 machines takes, by the model of output/farm/part_size.h, from
// set-up, tracing and joining measured here: `farm_bench [MB/s of the shared folder]`.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>

#include "output/farm/part_size.h"
#include "output/film/film_join.h"
#include "output/preview/deliver.h"
#include "output/preview/lit_rooms.h"
#include "output/preview/picture_notes.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace {

using namespace rakelight;
namespace fs = std::filesystem;

constexpr double kSeen_px = 200;  // width of what is measured

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// What was measured, for one pixel where it goes with their number.
struct Measured {
    double set_up_s = 0;
    double trace_s_per_px = 0;
    double join_s_per_px = 0;
    double bytes_per_px = 0;
};

Film trace(const LitRooms::Room& room, const Picture& picture, const PictureNotes& notes, RowRange rows) {
    RenderOptions options;
    options.card_cd_per_m2 = card_cd_per_m2(notes);
    options.rows = rows;
    return render(room.world, room.bvh, room.layout, picture, options);
}

Measured measure(const Layout& layout, Picture picture) {
    const fs::path folder = fs::temp_directory_path() / fmt::format("rakelight-bench-{}", now_s());
    fs::create_directories(folder);
    picture.height_px = static_cast<int>(picture.height_px * kSeen_px / picture.width_px);
    picture.width_px = static_cast<int>(kSeen_px);
    const double pixels = static_cast<double>(picture.width_px) * picture.height_px;
    Measured measured;
    double began_s = now_s();
    const Laying laying = lay(layout);
    LitRooms rooms(layout, laying);
    const LitRooms::Room room = rooms.in(picture.light);
    const PictureNotes notes = notes_of(room.layout, room.world, room.bvh, picture, 1);
    measured.set_up_s = now_s() - began_s;

    std::vector<std::string> files;
    constexpr int kParts = 4;
    for (int part = 0; part < kParts; ++part) {
        const RowRange rows{picture.height_px * part / kParts, picture.height_px * (part + 1) / kParts};
        began_s = now_s();
        const Film film = trace(room, picture, notes, rows);
        measured.trace_s_per_px += (now_s() - began_s) / pixels;
        files.push_back((folder / fmt::format("part-{}.exr", part)).string());
        write_film(files.back(), film, notes);
        measured.bytes_per_px += static_cast<double>(fs::file_size(files.back())) / pixels;
    }
    began_s = now_s();
    deliver(join_files(files), folder, true);
    measured.join_s_per_px = (now_s() - began_s) / pixels;
    fs::remove_all(folder);
    return measured;
}

void print_model(const Measured& measured, int width, int height, double folder_mb_per_s) {
    const double pixels = static_cast<double>(width) * height;
    const PictureCost cost{measured.set_up_s, measured.trace_s_per_px * pixels, height};
    const JoinCost join{measured.join_s_per_px * pixels, measured.bytes_per_px * pixels,
                        folder_mb_per_s * 1e6};
    fmt::print("\n{} x {}: tracing {:.0f} s, joining {:.0f} s, {:.0f} MB of parts\n", width, height,
               cost.trace_s, join.join_s, join.bytes / 1e6);
    fmt::print("{:>7}{:>12}{:>9}{:>14}{:>9}{:>11}\n", "parts", "elapsed s", "faster", "machine s", "set-up",
               "folder s");
    const double alone_s = split_cost(cost, join, 1).elapsed_s;
    const auto row = [&](int parts, const char* mark) {
        const SplitCost split = split_cost(cost, join, parts);
        fmt::print("{:>7}{:>12.1f}{:>9.1f}{:>14.0f}{:>7.0f} %{:>11.1f}  {}\n", parts, split.elapsed_s,
                   alone_s / split.elapsed_s, split.machine_s, 100 * split.set_up_share, split.folder_s,
                   mark);
    };
    const int chosen = parts_for(cost);
    bool told = false;
    for (const int parts : {1, 3, 10, 30, 100, 300, 1000, 3000, 10000}) {
        if (chosen <= parts && !told) row(chosen, "<- chosen");
        told = told || chosen <= parts;
        if (parts != chosen) row(parts, parts > height / 16 ? "(lower than a tile)" : "");
    }
    const double once_s = split_cost(cost, join, 1 << 30).elapsed_s;
    fmt::print("never under {:.1f} s: set-up {:.1f}, beginning {:.1f}, shared folder {:.1f}, join {:.1f}\n",
               once_s, cost.set_up_s, 2 * kTaskBegins_s, 2 * join.bytes / join.folder_b_per_s, join.join_s);
}

}  // namespace

int main(int argc, char** argv) {
    const double folder_mb_per_s = argc > 1 ? std::atof(argv[1]) : 100;  // a link of 1 Gbit/s
    const std::string file = std::string(RAKELIGHT_SCENES) + "/low-tide.yaml";
    const double began_s = now_s();
    const Layout layout = read_layout(file);
    const double read_s = now_s() - began_s;
    Measured measured = measure(layout, layout.views.pictures.front());
    measured.set_up_s += read_s;
    fmt::print(
        "{}, {}: set-up {:.2f} s, tracing {:.1f} us a pixel, joining {:.2f} us and {:.0f} bytes a pixel; "
        "shared folder {:.0f} MB/s\n",
        layout.panel.name, layout.views.pictures.front().name, measured.set_up_s,
        1e6 * measured.trace_s_per_px, 1e6 * measured.join_s_per_px, measured.bytes_per_px, folder_mb_per_s);
    print_model(measured, 1200, 924, folder_mb_per_s);
    print_model(measured, 9933, 7016, folder_mb_per_s);  // A1 at 300 dots an inch (ISO 216)
    return 0;
}
