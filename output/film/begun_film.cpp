#include "output/film/begun_film.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "output/film/checksum.h"
#include "output/film/film_join.h"
#include "output/film/scene_hash.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kMark = ".begun-";

PictureNotes marked(const BegunPlace& place) {
    PictureNotes notes = place.notes;
    notes.program += ", build " + place.build;
    return notes;
}

std::vector<fs::path> begun_files(const BegunPlace& place) {
    std::vector<fs::path> files;
    std::error_code error;
    const std::string start = place.stem + std::string(kMark);
    for (fs::directory_iterator walk(place.folder, error), end; !error && walk != end;
         walk.increment(error)) {
        const std::string name = walk->path().filename().string();
        if (name.starts_with(start) && name.ends_with(".exr")) files.push_back(walk->path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

// Rows of this picture that go on from others or from the first.
struct Begun {
    RowRange rows;
    fs::path file;
};

void tell_damage(const OutputError& error) {
    fmt::print(stderr, "Note: {}; its rows are rendered again\n", error.what());
}

std::vector<Begun> begun_in_order(const BegunPlace& place, int first_row, bool told) {
    std::vector<Begun> all;
    const std::string program = marked(place).program;
    for (const fs::path& file : begun_files(place)) try {
            const FilmAbout about = read_film_about(file);
            if (about.notes.scene_hash == place.notes.scene_hash && about.notes.program == program)
                all.push_back({about.rows, file});
        } catch (const OutputError& error) {  // damaged, or of another version: as if it were not there
            if (told) tell_damage(error);
        }
    std::sort(all.begin(), all.end(),
              [](const Begun& a, const Begun& b) { return a.rows.first_row < b.rows.first_row; });
    std::vector<Begun> chain;
    int next = first_row;
    for (const Begun& part : all)
        if (part.rows.first_row <= next && part.rows.end_row > next) {
            next = part.rows.end_row;
            chain.push_back(part);
        }
    return chain;
}

}  // namespace

std::string build_of_this_program() {
    static const std::string build = file_checksum("/proc/self/exe").substr(0, 16);
    return build;
}

std::optional<Film> begun_film(const BegunPlace& place, const RowRange& wanted) {
    std::optional<Film> whole;
    for (const Begun& part : begun_in_order(place, wanted.first_row, true)) {
        Film film;
        try {
            film = read_film(part.file).film;
        } catch (const OutputError& error) {
            tell_damage(error);
            break;
        }
        if (!whole) whole = blank_like(film, wanted);
        copy_rows(*whole, film);
        whole->rows = {wanted.first_row, std::min(part.rows.end_row, wanted.end_row)};
    }
    return whole;
}

int begun_until(const BegunPlace& place, int first_row) {
    const std::vector<Begun> chain = begun_in_order(place, first_row, false);
    return chain.empty() ? first_row : chain.back().rows.end_row;
}

void keep_rows(const BegunPlace& place, const Film& film, const RowRange& rows) {
    Film part = blank_like(film, rows);
    part.rows = rows;
    copy_rows(part, film);
    write_film(
        place.folder / fmt::format("{}{}{}-{}.exr", place.stem, kMark, rows.first_row + 1, rows.end_row),
        part, marked(place));
}

void forget_begun(const BegunPlace& place) {
    std::error_code ignored;
    for (const fs::path& file : begun_files(place)) fs::remove(file, ignored);
    fs::remove(place.folder / (place.stem + std::string(kBegunPasses)), ignored);
}

bool is_begun_file(const fs::path& file) {
    const std::string name = file.filename().string();
    return (name.ends_with(".exr") && name.find(kMark) != std::string::npos) || name.ends_with(kBegunPasses);
}

}  // namespace rakelight
