// A small film with a different value in every place, and a disk that is full.
#pragma once

#include <sys/resource.h>

#include <csignal>

#include "output/film/film_file.h"
#include "tests/support/test_folder.h"

namespace rakelight::test {

/// While it lives no file may grow beyond `bytes`: writing fails as on a full disk, only with EFBIG.
class FullDisk {
  public:
    explicit FullDisk(rlim_t bytes) {
        old_action_ = std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &old_limit_);
        const rlimit limit{bytes, old_limit_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &limit);
    }
    ~FullDisk() {
        setrlimit(RLIMIT_FSIZE, &old_limit_);
        std::signal(SIGXFSZ, old_action_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

  private:
    rlimit old_limit_{};
    void (*old_action_)(int) = nullptr;
};

inline Film make_film(int width, int height, RowRange rows) {
    Film film;
    film.width = width;
    film.height = height;
    film.groups = {"spots", "window: north"};
    film.materials = {"slate", "deep-teal", "kelp joint"};
    film.guide.is_there = true;
    hold_rows(film, rows);
    film.rows = rows;
    const std::size_t above = static_cast<std::size_t>(rows.first_row) * static_cast<std::size_t>(width);
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const std::size_t place = above + i;
        const float f = static_cast<float>(place) + 1;
        film.xyz[0][i] = {f / 3, f / 7, 1e-6f * f};
        film.xyz[1][i] = {1e6f / f, f * 0.1f, f};
        film.error[i] = 1 / f;
        film.samples[i] = static_cast<int>(place) + 16;
        film.features.depth_mm[i] = 1500 + f / 9;
        film.features.normal[i] = {0.1f / f, -0.2f, 0.97f};
        film.features.piece[i] = static_cast<int>(20000000 + place);  // more than a float holds exactly
        film.features.material[i] = static_cast<int>(place % 4);
        film.features.first_surface_share[i] = 1 / (1 + f);
        film.guide.half_cd_per_m2[i] = f / 5;
        film.guide.half_first_surface_cd_per_m2[i] = f / 11;
        film.guide.half_indirect_cd_per_m2[i] = f / 13;
        film.guide.indirect[i] = {f / 14, f / 15, f / 16};
        film.guide.reflectance[i] = {0.3f, 1 / (2 + f), 0.5f};
    }
    return film;
}

inline Film make_film(int width, int height) {
    return make_film(width, height, {0, height});
}

inline PictureNotes make_notes() {
    PictureNotes notes;
    notes.program = "rakelight 0.1.0";
    notes.panel = "Low tide";
    notes.layout_file = "tide.yaml";
    notes.picture = "straight";
    notes.scene_hash = 0x0123456789abcdefu;
    notes.illuminance_xyz = {{220.1, 200, 71.3}, {95.047 / 7, 100.0 / 7, 108.883 / 7}};
    notes.exposure_rule = "grey-card";
    notes.pixel_deg = 0.03;
    notes.wanted_error = 0.02;
    notes.most_samples = 512;
    return notes;
}

inline bool same_film(const Film& a, const Film& b) {
    return a.width == b.width && a.height == b.height && a.rows == b.rows && a.groups == b.groups &&
           a.xyz == b.xyz && a.error == b.error && a.samples == b.samples && a.materials == b.materials &&
           a.features.depth_mm == b.features.depth_mm && a.features.normal == b.features.normal &&
           a.features.piece == b.features.piece && a.features.material == b.features.material &&
           a.features.first_surface_share == b.features.first_surface_share &&
           a.guide.half_cd_per_m2 == b.guide.half_cd_per_m2 &&
           a.guide.half_first_surface_cd_per_m2 == b.guide.half_first_surface_cd_per_m2 &&
           a.guide.half_indirect_cd_per_m2 == b.guide.half_indirect_cd_per_m2 &&
           a.guide.indirect == b.guide.indirect && a.guide.reflectance == b.guide.reflectance;
}

}  // namespace rakelight::test
