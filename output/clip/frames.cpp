#include "output/clip/frames.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/film/scene_hash.h"
#include "output/print/exposure.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace fs = std::filesystem;

FrameFolder::FrameFolder(const fs::path& beside, const std::string& stem, std::uint64_t hash)
    : beside_(beside), path_(beside / fmt::format(".{}-{}", stem, hash_digits(hash))), stem_(stem) {
    make_writable_folder(path_);
}

fs::path FrameFolder::file(int frame) const {
    return path_ / fmt::format("{:05d}.ppm", frame + 1);
}

bool FrameFolder::has(int frame) const {
    std::error_code error;
    return fs::is_regular_file(file(frame), error);
}

void FrameFolder::keep(int frame, const Print& print) const {
    std::string bytes = fmt::format("P6 {} {} 255\n", print.width, print.height);
    bytes.reserve(bytes.size() + print.rgb.size());
    for (const float value : print.rgb)
        bytes.push_back(
            static_cast<char>(static_cast<unsigned char>(std::lround(255 * std::clamp(value, 0.0f, 1.0f)))));
    write_file(file(frame), bytes);
}

std::vector<std::string> FrameFolder::files(int frames) const {
    std::vector<std::string> all;
    for (int i = 0; i < frames; ++i) all.push_back(file(i).string());
    return all;
}

void FrameFolder::forget() const {
    std::error_code ignored;
    std::vector<fs::path> old;
    const std::string begins = fmt::format(".{}-", stem_);
    for (const fs::directory_entry& entry : fs::directory_iterator(beside_, ignored)) {
        const std::string name = entry.path().filename().string();
        if (entry.is_directory(ignored) && name.starts_with(begins) && name.size() == begins.size() + 16)
            old.push_back(entry.path());
    }
    for (const fs::path& folder : old) fs::remove_all(folder, ignored);
}

Film dimmed(const Film& film, std::span<const double> left) {
    Film out = film;
    for (std::size_t g = 0; g < out.xyz.size(); ++g)
        for (glm::vec3& xyz : out.xyz[g]) xyz *= static_cast<float>(left[g]);
    for (std::size_t i = 0; i < out.error.size(); ++i) {
        const float all = total_xyz(film, i).y;
        out.error[i] *= all > 0 ? total_xyz(out, i).y / all : 0;
    }
    return out;
}

double eased_card_cd_per_m2(double own, double brightest) {
    constexpr double kMostEase = 8;  // three stops
    return std::max(std::sqrt(std::max(own, 0.0) * brightest), brightest / kMostEase);
}

Developing developing_of_clip(std::span<const glm::dvec3> illuminance_xyz, double pixel_deg) {
    glm::dvec3 light(0);
    for (const glm::dvec3& group : illuminance_xyz) light += group;
    if (!(light.y > 0))
        throw RequestError("no light falls on the panel, so a grey card cannot set the exposure of a clip");
    Developing how;
    how.ev100 = ev100_of(card_luminance_cd_per_m2(light.y));
    how.light_white = {light.x / light.y, 1, light.z / light.y};
    how.adaptation = adaptation_degree(card_luminance_cd_per_m2(light.y));
    if (pixel_deg > 0) how.pixel_deg = pixel_deg;
    return how;
}

}  // namespace rakelight
