// The nine pictures that judge what a sample is worth, rendered as films that are kept in a folder.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/film/film_file.h"
#include "output/film/scene_hash.h"
#include "output/preview/lit_rooms.h"
#include "output/preview/picture_notes.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight::bench {

struct Judged {
    std::string name, layout, picture, light;
};

inline const std::vector<Judged> kJudged{
    {"low-tide-straight", "low-tide", "straight", ""},
    {"low-tide-three-quarter", "low-tide", "three-quarter", ""},
    {"low-tide-raking", "low-tide", "raking", ""},
    {"low-tide-rake", "low-tide", "straight", "rake from side"},
    {"low-tide-dusk", "low-tide", "straight", "dusk"},
    {"afternoon", "afternoon", "straight", ""},
    {"foyer", "clinic-foyer", "seated in front", ""},
    {"opera", "opus-sampler", "straight", ""},
    {"squall", "squall", "straight", ""},
};

/// How a judged picture is taken: its width, and films of so many samples of each pixel, the last of them the
/// reference, which has a seed of its own so that it shares no path with the others.
struct Taking {
    std::filesystem::path folder;
    int width_px = 400;
    std::vector<int> samples{16, 128, 1024};
};

/// The room of a judged picture in its light, and the picture at so many pixels across. Not to be copied.
struct JudgedRoom {
    Layout layout;
    Laying laying;
    LitRooms rooms;
    LitRooms::Room room;
    Picture picture;

    JudgedRoom(const Judged& judged, int width_px)
        : layout(read_layout(std::filesystem::path(RAKELIGHT_SCENES) / (judged.layout + ".yaml"))),
          laying(lay(layout)),
          rooms(layout, laying),
          room(rooms.in(judged.light)) {
        for (const Picture& own : layout.views.pictures)
            if (own.name == judged.picture) picture = own;
        picture.height_px = picture.height_px * width_px / picture.width_px;
        picture.width_px = width_px;
    }
    JudgedRoom(const JudgedRoom&) = delete;
    JudgedRoom& operator=(const JudgedRoom&) = delete;
};

/// The films of a judged picture in the order of `how.samples`, read from the folder or rendered into it.
inline std::vector<NotedFilm> films_of(const Judged& judged, const Taking& how) {
    std::vector<NotedFilm> films;
    const auto file = [&](int samples) {
        return how.folder /
               (judged.name + "-" + std::to_string(how.width_px) + "px-" + std::to_string(samples) + ".exr");
    };
    std::vector<int> missing;
    for (const int samples : how.samples)
        if (!std::filesystem::exists(file(samples))) missing.push_back(samples);
    if (!missing.empty()) {
        const JudgedRoom taken(judged, how.width_px);
        for (const int samples : missing) {
            Picture picture = taken.picture;
            picture.most_samples = samples;
            picture.error = 0;
            if (samples == how.samples.back()) picture.grain_seed = 4711;
            const auto& [layout, world, bvh] = taken.room;
            const PictureNotes notes = notes_of(layout, world, bvh, picture, 0);
            RenderOptions options;
            options.card_cd_per_m2 = card_cd_per_m2(notes);
            Film film = render(world, bvh, layout, picture, options);
            if (samples == how.samples.back()) film.guide.is_there = false;  // its light is all that counts
            write_film(file(samples), film, notes);
        }
    }
    for (const int samples : how.samples) films.push_back(read_film(file(samples)));
    return films;
}

}  // namespace rakelight::bench
