// What the filter for prints is worth: each of nine pictures against its reference, in CIEDE2000 of the
// printed colours, with 16 samples of each pixel as traced and filtered, and with 128 as traced and filtered.
// `filter_bench [FOLDER [WIDTH [SAMPLES]]]`: films are kept in FOLDER and rendered only once; pictures are
// WIDTH pixels wide (400), references have SAMPLES (512) of each pixel. With --png as the last word the
// prints are written there as well.
#include <fmt/format.h>
#include <time.h>

#include <algorithm>
#include <string>
#include <vector>

#include "materials/colour/ciede2000.h"
#include "output/filter/filter.h"
#include "output/preview/deliver.h"
#include "output/print/picture_writer.h"
#include "tests/bench/judged_pictures.h"

namespace {

using namespace rakelight;

std::vector<Lab> colours(const Print& print) {
    const Xyz white = linear_rgb_to_xyz({1, 1, 1});
    std::vector<Lab> labs;
    for (std::size_t i = 0; i < print.rgb.size(); i += 3)
        labs.push_back(
            xyz_to_lab(linear_rgb_to_xyz(decode({print.rgb[i], print.rgb[i + 1], print.rgb[i + 2]})), white));
    return labs;
}

struct Difference {
    double mean = 0, most_of_95 = 0;  ///< CIEDE2000, over the frame
};

Difference difference(const std::vector<Lab>& a, const std::vector<Lab>& b) {
    std::vector<double> each;
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        each.push_back(ciede2000(a[i], b[i]));
        sum += each.back();
    }
    std::ranges::sort(each);
    return {sum / static_cast<double>(each.size()), each[each.size() * 95 / 100]};
}

// Pixels over three times the mean of their eight neighbours.
int sparks(const Film& film) {
    int count = 0;
    const auto light = [&](int x, int y) {
        return static_cast<double>(total_xyz(film, static_cast<std::size_t>(y * film.width + x)).y);
    };
    for (int y = 1; y + 1 < film.height; ++y)
        for (int x = 1; x + 1 < film.width; ++x) {
            double sum = -light(x, y);
            for (int k = 0; k < 9; ++k) sum += light(x + k % 3 - 1, y + k / 3 - 1);
            count += light(x, y) > 3 * sum / 8;
        }
    return count;
}

double energy(const Film& film) {
    double sum = 0;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) sum += total_xyz(film, i).y;
    return sum;
}

double processor_s() {
    timespec t{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

void judge(const bench::Judged& judged, const bench::Taking& how, bool png) {
    const std::vector<NotedFilm> films = bench::films_of(judged, how);
    const Film &few = films[0].film, &more = films[1].film, &reference = films[2].film;
    const double before_s = processor_s();
    const Film calm = filtered(few);
    const double filter_s = (processor_s() - before_s) / (1e-6 * static_cast<double>(few.pixel_count()));
    const Developing developing = developing_for(films[2], true);
    const std::vector<Lab> truth = colours(develop(reference, developing));
    const auto told = [&](const Film& film, const char* name) {
        const Print print = develop(film, developing);
        if (png) write_png(how.folder / fmt::format("{}-{}.png", judged.name, name), print, {});
        return difference(colours(print), truth);
    };
    told(reference, "reference");
    const Difference a = told(few, "few"), b = told(calm, "few-filtered"), c = told(more, "more"),
                     d = told(filtered(more), "more-filtered");
    fmt::print("{:>22} {:6.2f} {:6.2f}  {:6.2f} {:6.2f}  {:6.2f} {:6.2f}  {:6.2f} {:6.2f}  {:5.2f} {:5.2f}  ",
               judged.name, a.mean, a.most_of_95, b.mean, b.most_of_95, c.mean, c.most_of_95, d.mean,
               d.most_of_95, b.mean / c.mean, b.most_of_95 / c.most_of_95);
    fmt::print("{:5} {:5} {:5} {:5}  {:+.3f} %  {:.2f}\n", sparks(few), sparks(calm), sparks(more),
               sparks(reference), 100 * (energy(calm) / energy(few) - 1), filter_s);
    std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
    const bool png = count > 1 && std::string(words[count - 1]) == "--png";
    count -= png;
    bench::Taking how{count > 1 ? words[1] : "filter_bench", 400, {16, 128, 512}};
    if (count > 2) how.width_px = std::stoi(words[2]);
    if (count > 3) how.samples.back() = std::stoi(words[3]);
    std::filesystem::create_directories(how.folder);
    fmt::print("CIEDE2000 against {} samples, mean and 95th percentile, {} px wide\n", how.samples.back(),
               how.width_px);
    fmt::print("{:>22} {:>13}  {:>13}  {:>13}  {:>13}  {:>11}  {:>23}  {:>7}  s of processor / Mpx\n", "",
               "16", "16 filtered", "128", "128 filtered", "16 f / 128", "sparks 16, f, 128, ref", "energy");
    for (const bench::Judged& judged : bench::kJudged) judge(judged, how, png);
}
