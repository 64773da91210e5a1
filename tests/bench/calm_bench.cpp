// What a second of tracing is worth: each of nine pictures at the error that its layout asks for and at more
// and fewer samples, against its reference: mean relative square error, 99th percentile of the error in L*,
// sparks, and light of the frame. `calm_bench [--folder DIR] [--width PX] [--reference SAMPLES] [--only NAME]
// [--against PROGRAM]`: references (512 samples of each pixel; more by the option) are kept in the folder
// (.build/judged) and traced only once; pictures are 300 px wide. PROGRAM is another build, which reads
// today's layouts: its figures stand beside, and how many times as long it takes to the same error.
#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <vector>

#include "output/print/develop.h"
#include "tests/bench/judged_pictures.h"

namespace {

using namespace rakelight;
namespace fs = std::filesystem;

struct Asked {
    bench::Taking how{".build/judged", 300, {512}};
    std::string only, against;
};

double seconds(const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
}

// Of processors, by this process or by those that it has started and seen end.
double processor_s(int who) {
    rusage used{};
    getrusage(who, &used);
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

/// How far a film is from its reference, and what it took.
struct Judgement {
    double samples = 0;  ///< mean of the pixels
    double traced_s = 0;
    double square_error = 0;     ///< mean of ((a - b) / (b + a tenth of a grey card))^2
    double lightness_error = 0;  ///< 99th percentile of |difference| in L*
    int sparks = 0;              ///< pixels over ten times the mean of their 3 x 3 neighbours' references
    double light = 0;            ///< of the frame, over that of the reference
};

// CIE 1976 lightness; what reflects all of the light on the panel is white.
double lightness(double cd_per_m2, double card_cd_per_m2) {
    const double y = 0.18 * cd_per_m2 / card_cd_per_m2;
    return y > 216.0 / 24389 ? 116 * std::cbrt(y) - 16 : y * 24389 / 27;
}

double mean_round(const Film& film, int x, int y) {
    double sum = 0;
    int count = 0;
    for (int v = std::max(0, y - 1); v < std::min(film.height, y + 2); ++v)
        for (int u = std::max(0, x - 1); u < std::min(film.width, x + 2); ++u, ++count)
            sum += total_xyz(film, static_cast<std::size_t>(v * film.width + u)).y;
    return sum / count;
}

Judgement judge(const Film& film, const NotedFilm& reference, double traced_s) {
    const double card = card_cd_per_m2(reference.notes);
    Judgement j;
    j.traced_s = traced_s;
    std::vector<double> lightness_errors;
    double light = 0, wanted = 0;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const double a = total_xyz(film, i).y, b = total_xyz(reference.film, i).y;
        const double relative = (a - b) / (b + 0.1 * card);
        j.samples += film.samples[i];
        j.square_error += relative * relative;
        lightness_errors.push_back(std::abs(lightness(a, card) - lightness(b, card)));
        const int width = film.width, x = static_cast<int>(i) % width, y = static_cast<int>(i) / width;
        j.sparks += a > 10 * mean_round(reference.film, x, y);
        light += a;
        wanted += b;
    }
    std::ranges::sort(lightness_errors);
    j.lightness_error = lightness_errors[lightness_errors.size() * 99 / 100];
    j.samples /= static_cast<double>(film.pixel_count());
    j.square_error /= static_cast<double>(film.pixel_count());
    j.light = light / wanted;
    return j;
}

const std::vector<int> kSamples{16, 48, 192};  // at most; the last is what the layouts ask for

std::vector<Judgement> of_this_build(const bench::JudgedRoom& taken, const NotedFilm& reference) {
    std::vector<Judgement> judgements;
    for (const int most : kSamples) {
        RenderOptions options;
        options.card_cd_per_m2 = card_cd_per_m2(reference.notes);
        options.most_samples = most;
        const auto& [layout, world, bvh] = taken.room;
        const double before_s = processor_s(RUSAGE_SELF);
        const Film film = render(world, bvh, layout, taken.picture, options);
        judgements.push_back(judge(film, reference, processor_s(RUSAGE_SELF) - before_s));
    }
    return judgements;
}

// The film that a program makes of a picture, and the processor time that it took in all.
Film made_by(const std::string& program, const bench::Judged& judged, const Picture& picture, int most,
             double& took_s) {
    const fs::path into = fs::temp_directory_path() / fmt::format("calm-bench-{}", getpid());
    fs::remove_all(into);
    std::string call = fmt::format(
        "'{}' preview '{}/{}.yaml' --picture '{}' --size {}x{} --most-samples {} --grain {} --into '{}' "
        "--no-look --as-traced --quiet > /dev/null 2>&1",
        program, RAKELIGHT_SCENES, judged.layout, judged.picture, picture.width_px, picture.height_px, most,
        picture.error, into.string());
    if (!judged.light.empty()) call += fmt::format(" --light '{}'", judged.light);
    const double before_s = processor_s(RUSAGE_CHILDREN);
    if (std::system(call.c_str()) != 0) throw std::runtime_error("failed: " + call);
    took_s = processor_s(RUSAGE_CHILDREN) - before_s;
    Film film;
    for (const auto& file : fs::recursive_directory_iterator(into))
        if (file.path().extension() == ".exr") film = read_film(file.path()).film;
    fs::remove_all(into);
    return film;
}

std::vector<Judgement> of_program(const std::string& program, const bench::Judged& judged,
                                  const Picture& picture, const NotedFilm& reference) {
    double all_else_s = 0;
    made_by(program, judged, picture, 1, all_else_s);  // laying, world, tree, files
    std::vector<Judgement> judgements;
    for (const int most : kSamples) {
        double took_s = 0;
        const Film film = made_by(program, judged, picture, most, took_s);
        judgements.push_back(judge(film, reference, took_s - all_else_s));
    }
    return judgements;
}

void tell(const char* who, const std::vector<Judgement>& judgements) {
    for (const Judgement& j : judgements)
        fmt::print("{:>8} {:6.1f} {:8.2f} s  {:9.5f}  {:6.2f}  {:5}  {:+.3f} %\n", who, j.samples, j.traced_s,
                   j.square_error, j.lightness_error, j.sparks, 100 * (j.light - 1));
}

// How many times as long `other` would take to our error: the square error falls as 1 / time, errors of L* as
// its root.
double factor(double Judgement::*kind, const Judgement& ours, const Judgement& other) {
    const double power = kind == &Judgement::square_error ? 1 : 2;
    return other.traced_s * std::pow(other.*kind / (ours.*kind), power) / ours.traced_s;
}

Asked asked_by(int count, char** words) {
    Asked asked;
    for (int i = 1; i + 1 < count; i += 2) {
        const std::string key = words[i], value = words[i + 1];
        if (key == "--folder") asked.how.folder = value;
        if (key == "--width") asked.how.width_px = std::stoi(value);
        if (key == "--reference") asked.how.samples = {std::stoi(value)};
        if (key == "--only") asked.only = value;
        if (key == "--against") asked.against = value;
    }
    return asked;
}

}  // namespace

int main(int count, char** words) {
    const Asked asked = asked_by(count, words);
    fs::create_directories(asked.how.folder);
    fmt::print("{} px wide, references of {} samples; seconds of processor\n", asked.how.width_px,
               asked.how.samples.back());
    fmt::print("{:>8} {:>6} {:>10}  {:>9}  {:>6}  {:>5}  {}\n", "", "paths", "traced", "square", "dL* 99",
               "spark", "light");
    double square = 0, lightness = 0;
    int judged_count = 0;
    for (const bench::Judged& judged : bench::kJudged) {
        if (judged.name.find(asked.only) == std::string::npos) continue;
        const NotedFilm reference = bench::films_of(judged, asked.how).front();
        const bench::JudgedRoom taken(judged, asked.how.width_px);
        fmt::print("{}\n", judged.name);
        const std::vector<Judgement> ours = of_this_build(taken, reference);
        tell("here", ours);
        if (!asked.against.empty()) {
            const auto others = of_program(asked.against, judged, taken.picture, reference);
            tell("against", others);
            const double a = factor(&Judgement::square_error, ours.back(), others.back()),
                         b = factor(&Judgement::lightness_error, ours.back(), others.back());
            fmt::print("{:>8} {:.2f} times as long to the same square error, {:.2f} to the same dL*\n", "", a,
                       b);
            square += std::log(a);
            lightness += std::log(b);
            ++judged_count;
        }
        std::fflush(stdout);
    }
    if (judged_count > 0)
        fmt::print("geometric mean: {:.2f} and {:.2f} times as long\n", std::exp(square / judged_count),
                   std::exp(lightness / judged_count));
}
