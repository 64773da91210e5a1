#include "output/preview/finished.h"

#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <cstdio>
#include <nlohmann/json.hpp>

#include "output/film/film_file.h"
#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/filter/filter.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

bool is_finished(const std::filesystem::path& folder, const std::string& stem, std::uint64_t scene_hash,
                 const Printing& how) {
    const auto file = [&](const char* extension) { return folder / (stem + extension); };
    for (const char* extension : {".json", ".png", ".exr"})
        if (!std::filesystem::is_regular_file(file(extension))) return false;
    try {
        for (const Damage& found : damage(file(".json"), true)) {
            fmt::print(stderr, "Note: {}\n", found.what);
            return false;
        }
        const auto record = nlohmann::ordered_json::parse(read_file(file(".json")));
        const auto& print = record.at("exposure");
        // Of few samples there is nothing to filter.
        const bool filtered = !how.as_traced && record.at("samples").at("fewest") >= kFewestToFilter;
        if (record.at("scene_hash") != hash_digits(scene_hash) || print.at("glow") != how.glow ||
            print.at("filtered") != filtered)
            return false;
        const auto png = OIIO::ImageInput::create("png");
        OIIO::ImageSpec spec;
        if (!png || !png->open(file(".png").string(), spec) ||
            spec.get_string_attribute("Scene hash") != hash_digits(scene_hash))
            return false;
        return read_film_about(file(".exr")).notes.scene_hash == scene_hash;
    } catch (const nlohmann::json::exception&) {
        return false;
    } catch (const OutputError&) {
        return false;
    }
}

bool is_part(const std::filesystem::path& file, std::uint64_t scene_hash, const RowRange& rows) {
    if (!std::filesystem::is_regular_file(file)) return false;
    try {
        const FilmAbout about = read_film_about(file);
        if (about.notes.scene_hash != scene_hash || about.rows != rows) return false;
        check_film(file);
        return true;
    } catch (const OutputError& error) {
        fmt::print(stderr, "Note: {}; it is rendered again\n", error.what());
        return false;
    }
}

}  // namespace rakelight
