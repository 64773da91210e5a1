#include "output/web/light.h"

#include <OpenImageIO/strutil.h>
#include <fmt/format.h>

#include <bit>
#include <cmath>
#include <nlohmann/json.hpp>

#include "output/film/scene_hash.h"
#include "output/filter/filter.h"
#include "output/preview/deliver.h"
#include "output/print/eye_glare.h"
#include "output/print/tone.h"
#include "output/system/errors.h"
#include "output/web/light_layers.h"
#include "output/web/markup.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

std::string data_element(const std::string& id, const std::string& bytes) {
    return fmt::format("<script type=\"text/plain\" id=\"{}\">{}</script>\n", id,
                       OIIO::Strutil::base64_encode(bytes));
}

// A quarter of the kernel, the rest being its mirror images: 32-bit floats, lowest byte first, centre first.
std::string quadrant_bytes(const GlareKernel& kernel) {
    std::string bytes;
    const auto side = static_cast<std::size_t>(2 * kernel.radius + 1);
    const auto middle = static_cast<std::size_t>(kernel.radius);
    for (std::size_t y = middle; y < side; ++y)
        for (std::size_t x = middle; x < side; ++x) {
            const auto bits = std::bit_cast<std::uint32_t>(kernel.weight[y * side + x]);
            for (int k = 0; k < 4; ++k) bytes += static_cast<char>(bits >> (8 * k));
        }
    return bytes;
}

// Number and known share of every pixel that the glow may take light from, so that the page has the same one.
Json known_pixels(const Film& film, const Developing& how) {
    Json pixels = Json::array();
    if (film.error.empty()) return pixels;
    const glm::dmat3 matrix = room_to_print(how);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const glm::vec3 xyz = total_xyz(film, i);
        const glm::dvec3 rgb = matrix * glm::dvec3(xyz);
        if (luminance(static_cast<float>(rgb.r), static_cast<float>(rgb.g), static_cast<float>(rgb.b)) <
            0.99f)
            continue;
        const auto share = static_cast<double>(known_share(xyz.y, film.error[i]));
        pixels.push_back({i, std::round(share * 1e4) / 1e4});
    }
    return pixels;
}

Json rows_of(const glm::dmat3& matrix) {
    Json rows = Json::array();
    for (int r = 0; r < 3; ++r) rows.push_back({matrix[0][r], matrix[1][r], matrix[2][r]});
    return rows;
}

// What somebody hands in to be shown is input: a film of it that is damaged is no trouble with output.
template <class Read>
auto from_disk(Read&& read) {
    try {
        return read();
    } catch (const OutputError& error) {
        throw RequestError(error.what());
    }
}

// Filters the light of all groups together and shares it out as they have part in it.
void calm(Film& film) {
    const Film together = filtered(film);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const glm::vec3 before = total_xyz(film, i), after = together.xyz[0][i];
        for (int c = 0; c < 3; ++c)
            for (auto& group : film.xyz)
                group[i][c] = before[c] > 0 ? group[i][c] * (after[c] / before[c])
                                            : after[c] / static_cast<float>(film.xyz.size());
    }
}

}  // namespace

WebLight web_light(const std::filesystem::path& film, bool glow, bool is_filtered, const std::string& name,
                   int most_side_px) {
    NotedFilm noted = from_disk([&] { return read_film(film); });
    if (noted.film.rows != RowRange{0, noted.film.height})
        throw RequestError(fmt::format("{} holds only some rows of a picture", film.string()));
    Developing how = developing_for(noted, glow);
    if (is_filtered && can_be_filtered(noted.film)) calm(noted.film);
    const int width = noted.film.width;
    noted.film = shrink_light(noted.film, most_side_px);
    if (how.pixel_deg) *how.pixel_deg *= width / static_cast<double>(noted.film.width);

    WebLight light{embedded_print(develop(noted.film, how)), "", name};
    Json groups = Json::array();
    for (const LightLayer& layer : pack_light(noted.film)) {
        const std::string id = fmt::format("{}-layer-{}", name, groups.size() + 1);
        light.scripts += data_element(id, layer.packed);
        const auto at = std::find(noted.film.groups.begin(), noted.film.groups.end(), layer.group);
        const Xyz& lux =
            noted.notes.illuminance_xyz[static_cast<std::size_t>(at - noted.film.groups.begin())];
        groups.push_back({{"name", layer.group}, {"layer", id}, {"lux", {lux.x, lux.y, lux.z}}});
    }
    Json sheet{{"width", noted.film.width},
               {"height", noted.film.height},
               {"toPrint", rows_of(room_to_print(how))},
               {"straight", kStraightUpTo},
               {"luminance", {{"steps", kLuminanceStepsAnOctave}, {"zero", kLuminanceZero}}},
               {"ratio", {{"steps", kRatioStepsAnOctave}, {"zero", kRatioZero}}},
               {"groups", groups}};
    if (how.pixel_deg) {
        const GlareKernel kernel = make_glare_kernel(*how.pixel_deg);
        const std::string id = name + "-glow";
        light.scripts += data_element(id, quadrant_bytes(kernel));
        sheet["glow"] = {
            {"radius", kernel.radius}, {"weights", id}, {"known", known_pixels(noted.film, how)}};
    }
    light.scripts +=
        fmt::format("<script type=\"application/json\" id=\"{}\">{}</script>\n", name, script_json(sheet));
    return light;
}

bool is_film_of(const std::filesystem::path& film, const std::string& scene_hash) {
    return hash_digits(from_disk([&] { return read_film_about(film); }).notes.scene_hash) == scene_hash;
}

}  // namespace rakelight
