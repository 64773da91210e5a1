#include "output/compare/compared.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>

#include "materials/colour/ciede2000.h"
#include "output/system/errors.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr std::size_t kFewPixels = 12;  // areas with fewer are left out
constexpr double kMapSmooth_px = 1.2;

std::vector<glm::vec3> picture_rgb(const Film& film, const Xyz& light) {
    const Xyz white{light.x / light.y, 1, light.z / light.y}, d65 = linear_rgb_to_xyz({1, 1, 1});
    const double scale = std::numbers::pi / light.y;  // a perfect diffuser in this light is 1 (Lambert)
    std::vector<glm::vec3> rgb(film.pixel_count());
    for (std::size_t i = 0; i < rgb.size(); ++i) {
        const glm::vec3 xyz = total_xyz(film, i);
        const LinearRgb c =
            xyz_to_linear_rgb(adapt({xyz.x * scale, xyz.y * scale, xyz.z * scale}, white, d65));
        rgb[i] = {static_cast<float>(c.r), static_cast<float>(c.g), static_cast<float>(c.b)};
    }
    return rgb;
}

Xyz xyz_of_rgb(const glm::dvec3& rgb) {
    return linear_rgb_to_xyz({rgb.r, rgb.g, rgb.b});
}
Lab lab_of(const glm::dvec3& rgb) {
    return xyz_to_lab(xyz_of_rgb(rgb), linear_rgb_to_xyz({1, 1, 1}));
}

// What of the photograph a pixel of the picture shows.
struct Laid {
    std::vector<glm::vec3> rgb;
    std::vector<char> outside, spoilt;
};

Laid lay_photo(const Film& film, const PanelPhotograph& photo, const glm::dmat3& h) {
    const std::size_t n = film.pixel_count();
    Laid laid{std::vector<glm::vec3>(n), std::vector<char>(n), std::vector<char>(n)};
    const glm::dvec2 middle = glm::dvec2(film.width, film.height) / 2.0;
    const double px = glm::length(projected(h, middle + glm::dvec2(1, 1)) - projected(h, middle));
    const int fine = std::clamp(static_cast<int>(std::ceil(px)), 2, 8);
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const auto at = static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                            static_cast<std::size_t>(x);
            glm::vec3 sum(0);
            for (int j = 0; j < fine; ++j)
                for (int i = 0; i < fine; ++i) {
                    const glm::dvec2 p = projected(h, {x + (i + 0.5) / fine, y + (j + 0.5) / fine});
                    if (!(p.x >= 0 && p.y >= 0 && p.x < photo.width && p.y < photo.height)) {
                        laid.outside[at] = 1;
                        continue;
                    }
                    const std::size_t from = photo.spoilt.at(static_cast<int>(p.x), static_cast<int>(p.y));
                    sum += photo.rgb[from];
                    laid.spoilt[at] |= photo.spoilt.v[from] > 0;
                }
            laid.rgb[at] = sum / static_cast<float>(fine * fine);
        }
    return laid;
}

// Pixels of areas: the whole of one and its inside, whose neighbours are of the same.
struct Area {
    std::string name;
    bool pieces = true;
    std::vector<std::size_t> all, inside;
    const std::vector<std::size_t>& best() const { return inside.size() >= kFewPixels ? inside : all; }
};

std::vector<Area> areas_by(const Film& film, const std::vector<char>& counts,
                           const std::function<std::int64_t(std::size_t)>& key_of,
                           const std::function<void(Area&, std::size_t)>& name) {
    std::map<std::int64_t, Area> areas;
    const auto width = static_cast<std::size_t>(film.width);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const std::int64_t key = counts[i] ? key_of(i) : 0;
        if (key == 0) continue;
        Area& area = areas[key];
        if (area.all.empty()) name(area, i);
        area.all.push_back(i);
        const std::size_t x = i % width, y = i / width;
        const bool edge =
            x == 0 || y == 0 || x + 1 == width || y + 1 == static_cast<std::size_t>(film.height);
        if (!edge && key_of(i - 1) == key && key_of(i + 1) == key && key_of(i - width) == key &&
            key_of(i + width) == key)
            area.inside.push_back(i);
    }
    std::vector<Area> list;
    for (auto& [key, area] : areas)
        if (area.all.size() >= kFewPixels) list.push_back(std::move(area));
    return list;
}

std::vector<Area> material_areas(const Film& film, const std::vector<char>& counts) {
    // A material of pieces, and one of the same name in the joints, are two.
    return areas_by(
        film, counts,
        [&](std::size_t i) -> std::int64_t {
            const std::int64_t m = film.features.material[i];
            return film.features.piece[i] > 0 ? m : -m;
        },
        [&](Area& area, std::size_t i) {
            area.name = film.materials[static_cast<std::size_t>(film.features.material[i]) - 1];
            area.pieces = film.features.piece[i] > 0;
        });
}

std::vector<Area> field_areas(const Film& film, const std::vector<char>& counts, const CompareAsk& ask) {
    const auto field = [&](std::size_t i) -> std::int64_t {
        const auto piece = static_cast<std::size_t>(film.features.piece[i]);
        return piece > 0 && piece <= ask.field_of_piece.size() ? ask.field_of_piece[piece - 1] + 1 : 0;
    };
    return areas_by(film, counts, field, [&](Area& area, std::size_t i) {
        area.name = ask.field_names[static_cast<std::size_t>(field(i)) - 1];
    });
}

glm::dvec3 mean_of(const std::vector<glm::vec3>& values, const std::vector<std::size_t>& at) {
    glm::dvec3 sum(0);
    for (const std::size_t i : at) sum += glm::dvec3(values[i]);
    return sum / static_cast<double>(at.size());
}

glm::dvec3 gain_by_white(const Compared& c, const std::vector<Area>& fields,
                         const std::vector<Area>& materials, const std::string& name) {
    std::vector<std::string> names;
    for (const auto* areas : {&fields, &materials})
        for (const Area& area : *areas) {
            names.push_back(area.name);
            if (area.name != name) continue;
            const glm::dvec3 to = mean_of(c.picture_rgb, area.best()),
                             from = mean_of(c.photo_rgb, area.best());
            if (std::min({from.r, from.g, from.b}) < 1e-4 || std::min({to.r, to.g, to.b}) <= 0)
                throw RequestError(fmt::format(
                    "--white: found {}, which is too dark for a white, expected a paler one", name));
            return to / from;
        }
    throw RequestError(fmt::format("--white: found {}, expected a field or material of the picture{}", name,
                                   did_you_mean(name, names)));
}

// One exposure: that of the median pixel.
glm::dvec3 gain_by_exposure(const Compared& c, const std::vector<char>& counts) {
    std::vector<double> ratios;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (!counts[i]) continue;
        const double to = xyz_of_rgb(c.picture_rgb[i]).y, from = xyz_of_rgb(c.photo_rgb[i]).y;
        if (from > 1e-4 && to > 1e-4) ratios.push_back(to / from);
    }
    if (ratios.empty()) return glm::dvec3(1);
    const auto middle = ratios.begin() + static_cast<std::ptrdiff_t>(ratios.size() / 2);
    std::nth_element(ratios.begin(), middle, ratios.end());
    return glm::dvec3(*middle);
}

ComparedArea compared_area(const Film& film, const Compared& c, const Area& area) {
    ComparedArea r{area.name, area.pieces, area.all.size()};
    const glm::dvec3 picture = mean_of(c.picture_rgb, area.best()), photo = mean_of(c.photo_rgb, area.best());
    r.picture = lab_of(picture);
    r.photo = lab_of(photo);
    r.delta_e = ciede2000(r.picture, r.photo);
    const Xyz a = xyz_of_rgb(picture), b = xyz_of_rgb(photo);
    r.picture_xyz = {a.x, a.y, a.z};
    r.photo_xyz = {b.x, b.y, b.z};
    for (const std::size_t i : area.best())
        r.mirrored += static_cast<double>(film.features.first_surface_share[i]) /
                      static_cast<double>(area.best().size());
    return r;
}

Plane channel(const std::vector<glm::vec3>& rgb, int width, int height, int which) {
    Plane p(width, height);
    for (std::size_t i = 0; i < rgb.size(); ++i) p.v[i] = rgb[i][which];
    return p;
}

// Of a photograph a little smoothed, as the picture is: grain and a seam that is half a pixel off say
// nothing.
void map_differences(Compared& c, const std::vector<char>& counts) {
    Plane weight(c.width, c.height);
    for (std::size_t i = 0; i < counts.size(); ++i) weight.v[i] = counts[i] ? 1.f : 0.f;
    std::array<Plane, 6> smooth;
    for (int k = 0; k < 3; ++k) {
        smooth[static_cast<std::size_t>(k)] =
            blurred(channel(c.picture_rgb, c.width, c.height, k), weight, kMapSmooth_px);
        smooth[static_cast<std::size_t>(k) + 3] =
            blurred(channel(c.photo_rgb, c.width, c.height, k), weight, kMapSmooth_px);
    }
    c.delta_e.assign(counts.size(), -1.f);
    std::vector<float> sorted;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (!counts[i]) continue;
        const Lab a = lab_of({smooth[0].v[i], smooth[1].v[i], smooth[2].v[i]});
        const Lab b = lab_of({smooth[3].v[i], smooth[4].v[i], smooth[5].v[i]});
        sorted.push_back(c.delta_e[i] = static_cast<float>(ciede2000(a, b)));
    }
    std::sort(sorted.begin(), sorted.end());
    c.median = sorted[sorted.size() / 2];
    c.nine_in_ten = sorted[sorted.size() * 9 / 10];
}

void register_photo(Compared& c, const Film& film, const PanelPhotograph& photo, const CompareAsk& ask) {
    c.given = ask.corners;
    c.in_picture = ask.in_picture ? *ask.in_picture : corners_of_pieces(film);
    Plane weight(film.width, film.height);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const bool mirrored = film.features.first_surface_share[i] > kMostlyMirrored;
        weight.v[i] = film.features.piece[i] > 0 && !mirrored ? 1.f : 0.f;
    }
    // Joints between the pieces count as they do.
    const glm::dmat3 inverse = homography(c.in_picture, {glm::dvec2(0), {1, 0}, {1, 1}, {0, 1}});
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const glm::dvec2 p = projected(inverse, {x + 0.5, y + 0.5});
            const std::size_t at = weight.at(x, y);
            const bool panel = p.x > 0 && p.y > 0 && p.x < 1 && p.y < 1;
            if (panel && film.features.first_surface_share[at] <= kMostlyMirrored) weight.v[at] = 1;
        }
    const glm::dmat3 as_given = homography(c.in_picture, c.given);
    c.laid = registered(c.picture_rgb, weight, photo, as_given);
    double moved = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        c.found[i] = projected(c.laid.to_photo, c.in_picture[i]);
        moved = std::max(moved, glm::length(c.found[i] - c.given[i]));
    }
    const double diagonal = glm::length(c.given[2] - c.given[0]);
    if (!(c.laid.alike > c.laid.alike_as_given) || moved > 0.08 * diagonal || !proper(c.found)) {
        c.by_edges = false;
        c.found = c.given;
        c.laid.to_photo = as_given;
        c.laid.alike = c.laid.alike_as_given;
    }
}

}  // namespace

Corners corners_of_pieces(const Film& film) {
    // The furthest pixels to each corner.
    std::array<double, 4> most;
    most.fill(-1e30);
    Corners corners{};
    std::size_t count = 0;
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const auto i = static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                           static_cast<std::size_t>(x);
            if (film.features.piece[i] <= 0) continue;
            ++count;
            const std::array<glm::dvec2, 4> tips{glm::dvec2(x, y), {x + 1, y}, {x + 1, y + 1}, {x, y + 1}};
            const std::array<double, 4> reach{-x - y - 0.0, x - y + 0.0, x + y + 0.0, y - x + 0.0};
            for (std::size_t k = 0; k < 4; ++k)
                if (reach[k] > most[k]) most[k] = reach[k], corners[k] = tips[k];
        }
    if (count < 100 || !proper(corners))
        throw RequestError("found too little of the panel in the picture, expected one that shows all of it");
    return corners;
}

Compared compare(const Film& film, const PanelPhotograph& photo, const CompareAsk& ask) {
    Compared c;
    c.white = ask.white, c.by_chart = ask.by_chart;
    c.width = film.width, c.height = film.height;
    c.picture_rgb = picture_rgb(film, ask.light_white);
    register_photo(c, film, photo, ask);
    Laid laid = lay_photo(film, photo, c.laid.to_photo);
    c.photo_rgb = std::move(laid.rgb);
    const glm::dmat3 to_panel = homography(c.in_picture, {glm::dvec2(0), {1, 0}, {1, 1}, {0, 1}});
    std::vector<char> counts(film.pixel_count());
    std::size_t left = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const auto width = static_cast<std::size_t>(film.width);
        const glm::dvec2 p = projected(to_panel, glm::dvec2(i % width, i / width) + 0.5);
        const bool panel = p.x > 0 && p.y > 0 && p.x < 1 && p.y < 1 && film.features.material[i] > 0;
        if (!panel) continue;
        ++c.panel_pixels;
        if (laid.outside[i]) {
            ++c.outside;
        } else if (film.features.first_surface_share[i] > kMostlyMirrored) {
            ++c.mirrored_out;
        } else if (laid.spoilt[i]) {
            ++c.spoilt_out;
        } else {
            counts[i] = 1;
            ++left;
        }
    }
    if (left < 100)
        throw RequestError(
            fmt::format("found nothing to compare: of {} pixels of the panel {} are outside of the "
                        "photograph, {} mostly mirrored, {} over- or underexposed",
                        c.panel_pixels, c.outside, c.mirrored_out, c.spoilt_out));
    const std::vector<Area> materials = material_areas(film, counts), fields = field_areas(film, counts, ask);
    if (!ask.white.empty())
        c.gain = gain_by_white(c, fields, materials, ask.white);
    else if (!ask.by_chart)
        c.gain = gain_by_exposure(c, counts);
    for (glm::vec3& rgb : c.photo_rgb) rgb *= glm::vec3(c.gain);
    map_differences(c, counts);
    const auto all = [&](const std::vector<Area>& areas, std::vector<ComparedArea>& to) {
        for (const Area& area : areas) to.push_back(compared_area(film, c, area));
        std::stable_sort(to.begin(), to.end(),
                         [](const ComparedArea& a, const ComparedArea& b) { return a.delta_e > b.delta_e; });
    };
    all(fields, c.fields);
    all(materials, c.materials);
    return c;
}

}  // namespace rakelight
