#include "output/study/study.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "output/preview/deliver.h"
#include "output/print/eye_blur.h"
#include "output/study/values.h"
#include "output/system/errors.h"

namespace rakelight {
namespace {

// What of a picture shows the panel.
struct Frame {
    glm::ivec2 low{}, size{};
};

Frame frame_of(const Film& film) {
    glm::ivec2 low(film.width, film.height), high(-1);
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x)
            if (film.features.piece[static_cast<std::size_t>(y * film.width + x)] > 0) {
                low = glm::min(low, {x, y});
                high = glm::max(high, {x, y});
            }
    constexpr int kLeast_px = 16;
    if (high.x - low.x < kLeast_px || high.y - low.y < kLeast_px)
        throw RequestError("found a picture that shows no panel, expected one of it");
    return {low, high - low + 1};
}

// Width of a pixel at the panel: the angle that it is seen under, at the median distance of the pieces.
double mm_per_px_of(const NotedFilm& noted) {
    std::vector<float> depth_mm;
    for (std::size_t i = 0; i < noted.film.pixel_count(); ++i)
        if (noted.film.features.piece[i] > 0) depth_mm.push_back(noted.film.features.depth_mm[i]);
    const auto middle = depth_mm.begin() + static_cast<std::ptrdiff_t>(depth_mm.size() / 2);
    std::nth_element(depth_mm.begin(), middle, depth_mm.end());
    return static_cast<double>(*middle) * std::tan(noted.notes.pixel_deg * std::numbers::pi / 180);
}

Print cropped(const Print& print, const Frame& frame) {
    Print part{frame.size.x, frame.size.y, {}};
    for (int y = 0; y < frame.size.y; ++y) {
        const auto from = print.rgb.begin() +
                          3 * (static_cast<std::ptrdiff_t>(frame.low.y + y) * print.width + frame.low.x);
        part.rgb.insert(part.rgb.end(), from, from + 3 * frame.size.x);
    }
    return part;
}

EncodedSrgb pixel(const Print& print, std::size_t i) {
    return {print.rgb[3 * i], print.rgb[3 * i + 1], print.rgb[3 * i + 2]};
}

// CIE L* of each pixel of a print.
std::vector<float> lightness_of(const Print& print) {
    const Xyz white = linear_rgb_to_xyz({1, 1, 1});
    std::vector<float> l(print.rgb.size() / 3);
    for (std::size_t i = 0; i < l.size(); ++i)
        l[i] = static_cast<float>(xyz_to_lab(linear_rgb_to_xyz(decode(pixel(print, i))), white).l);
    return l;
}

float grey_of(double lightness) {
    const Xyz xyz = lab_to_xyz({lightness, 0, 0}, linear_rgb_to_xyz({1, 1, 1}));
    return static_cast<float>(std::clamp(encode(xyz_to_linear_rgb(xyz)).g, 0.0, 1.0));
}

Print in_greys(const Print& like, const std::vector<float>& lightness) {
    Print grey{like.width, like.height, {}};
    for (const float l : lightness) grey.rgb.insert(grey.rgb.end(), 3, grey_of(static_cast<double>(l)));
    return grey;
}

Print in_values(const Print& like, const std::vector<float>& lightness, const std::vector<double>& levels) {
    std::vector<float> shown;
    for (const double level : levels) shown.push_back(grey_of(level));
    Print grey{like.width, like.height, {}};
    for (const float l : lightness)
        grey.rgb.insert(grey.rgb.end(), 3, shown[nearest_level(levels, static_cast<double>(l))]);
    return grey;
}

// The picture's light, mixed as from a distance, printed as the picture is.
class Darkroom {
  public:
    Darkroom(const NotedFilm& noted, const Frame& frame, double mm_per_px)
        : noted_(noted), frame_(frame), mm_per_px_(mm_per_px), how_(developing_for(noted, false)) {
        for (std::size_t i = 0; i < noted.film.pixel_count(); ++i) xyz_.push_back(total_xyz(noted.film, i));
    }

    Print from(double distance_m) const {
        Film film;
        film.width = noted_.film.width;
        film.height = noted_.film.height;
        film.rows = {0, film.height};
        film.groups = {"all"};
        film.xyz = {distance_m > 0 ? seen_from(xyz_, film.width, film.height, mm_per_px_, distance_m) : xyz_};
        return cropped(develop(film, how_), frame_);
    }

  private:
    const NotedFilm& noted_;
    Frame frame_;
    double mm_per_px_;
    Developing how_;
    std::vector<glm::vec3> xyz_;
};

// From how far an eye mixes light over so wide a patch.
double mixing_distance_m(double width_mm) {
    return width_mm / 1000 / std::tan(kResolved_deg * std::numbers::pi / 180);
}

Print print_of(const ReferencePicture& picture) {
    Print print{picture.width_px, picture.height_px, {}};
    for (const glm::vec4& p : picture.pixels) {
        const glm::dvec3 on_white = glm::dvec3(p) + glm::dvec3(1 - static_cast<double>(p.w));
        const EncodedSrgb e = encode({on_white.x, on_white.y, on_white.z});
        for (const double v : {e.r, e.g, e.b})
            print.rgb.push_back(static_cast<float>(std::clamp(v, 0.0, 1.0)));
    }
    return print;
}

}  // namespace

Study make_study(const NotedFilm& noted, const StudiedFields& laid,
                 const std::optional<ReferencePicture>& reference) {
    if (!(total_illuminance_xyz(noted.notes).y > 0))
        throw RequestError("found a picture without light on the panel, expected one of it lit");
    const Frame frame = frame_of(noted.film);
    Study study;
    study.mm_per_px = mm_per_px_of(noted);
    const Darkroom room(noted, frame, study.mm_per_px);
    const Print as_laid = room.from(0), shapes = room.from(kValuesFrom_m);
    const std::vector<float> lightness = lightness_of(shapes);
    study.three = value_levels(lightness, 3);
    study.five = value_levels(lightness, 5);
    double first = 0, second = 0;
    for (const float l : lightness) first += l, second += static_cast<double>(l) * l;
    const auto n = static_cast<double>(lightness.size());
    study.mean_l = first / n;
    study.spread_l = std::sqrt(std::max(0.0, second / n - study.mean_l * study.mean_l));
    study.views = {
        {"as laid", as_laid},
        {"in greys", in_greys(as_laid, lightness_of(as_laid))},
        {"in three values", in_values(shapes, lightness, study.three)},
        {"in five values", in_values(shapes, lightness, study.five)},
        {"out of focus", room.from(mixing_distance_m(kOutOfFocus * frame.size.x * study.mm_per_px))}};
    for (const double distance : kStudyDistances_m)
        study.views.push_back({fmt::format("from {:g} m", distance), room.from(distance)});
    if (reference) {
        const Print picture = print_of(*reference);
        const std::vector<float> l = lightness_of(picture);
        study.reference = {{"reference", picture},
                           {"in greys", in_greys(picture, l)},
                           {"in three values", in_values(picture, l, value_levels(l, 3))},
                           {"in five values", in_values(picture, l, value_levels(l, 5))}};
    }
    if (!laid.names.empty()) study.fields = field_tones(noted, laid, study.mm_per_px);
    return study;
}

}  // namespace rakelight
