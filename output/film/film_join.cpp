#include "output/film/film_join.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <utility>

#include "output/film/film_channels.h"
#include "output/film/scene_hash.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

void check_same(const PartFilm& a, const PartFilm& b) {
    const auto differ = [&](std::string_view what, const auto& one, const auto& other) {
        throw RequestError(fmt::format("{} and {} are not parts of one picture: {} {} and {}", a.name, b.name,
                                       what, one, other));
    };
    const PictureNotes& m = a.noted.notes;
    const PictureNotes& n = b.noted.notes;
    const Film& f = a.noted.film;
    const Film& g = b.noted.film;
    if (m.picture != n.picture) differ("pictures", m.picture, n.picture);
    if (f.width != g.width || f.height != g.height)
        differ("sizes", fmt::format("{}x{}", f.width, f.height), fmt::format("{}x{}", g.width, g.height));
    if (m.scene_hash != n.scene_hash) differ("scenes", hash_digits(m.scene_hash), hash_digits(n.scene_hash));
    if (m.program != n.program) differ("made by", m.program, n.program);
    if (m != n || f.groups != g.groups || f.materials != g.materials || f.guide.is_there != g.guide.is_there)
        throw RequestError(
            fmt::format("{} and {} are not parts of one picture: their lamps, materials or light on "
                        "the panel differ",
                        a.name, b.name));
}

// Rows count from 1 for people.
std::string rows_text(int first_row, int end_row) {
    return end_row - first_row == 1 ? fmt::format("row {}", first_row + 1)
                                    : fmt::format("rows {} to {}", first_row + 1, end_row);
}

// Pixels in two films.
struct Span {
    std::size_t to = 0;
    std::size_t from = 0;
    std::size_t pixels = 0;
};

template <class Value, class Source>
void copy_values(const FilmPart<Value>& to, const FilmPart<Source>& from, const Span& span) {
    for (std::size_t c = 0; c < to.channels.size(); ++c)
        for (std::size_t i = 0; i < span.pixels; ++i)
            to.channels[c].first[(span.to + i) * to.channels[c].stride] =
                from.channels[c].first[(span.from + i) * from.channels[c].stride];
}

}  // namespace

std::vector<PartFilm> in_order(std::vector<PartFilm> parts) {
    if (parts.empty()) throw RequestError("there are no parts to join");
    for (const PartFilm& part : parts) check_same(parts.front(), part);
    std::stable_sort(parts.begin(), parts.end(), [](const PartFilm& a, const PartFilm& b) {
        return a.noted.film.rows.first_row < b.noted.film.rows.first_row;
    });
    const int height = parts.front().noted.film.height;
    const auto missing = [&](int first_row, int end_row) {
        throw RequestError(fmt::format("{} of {} {} missing", rows_text(first_row, end_row),
                                       parts.front().noted.notes.picture,
                                       end_row - first_row == 1 ? "is" : "are"));
    };
    int next = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const RowRange rows = parts[i].noted.film.rows;
        if (rows.first_row < next)
            throw RequestError(fmt::format("{} and {} both hold {}", parts[i - 1].name, parts[i].name,
                                           rows_text(rows.first_row, std::min(next, rows.end_row))));
        if (rows.first_row > next) missing(next, rows.first_row);
        next = rows.end_row;
    }
    if (next < height) missing(next, height);

    return parts;
}

namespace {

// Parts of a picture in order, those open that were read last.
class OpenParts {
  public:
    explicit OpenParts(std::vector<PartFilm> parts) : parts_(std::move(parts)) {}

    // Rows that may lie in several parts, each part's by `read`.
    template <class Value>
    std::vector<Value> read(const RowRange& rows, const auto& read_of) {
        std::vector<Value> all;
        for (std::size_t p = 0; p < parts_.size(); ++p) {
            const RowRange& own = parts_[p].noted.film.rows;
            const RowRange both{std::max(own.first_row, rows.first_row), std::min(own.end_row, rows.end_row)};
            if (both.first_row >= both.end_row) {
                open_.erase(p);
                continue;
            }
            const auto at = open_.try_emplace(p).first;
            if (!at->second.reals) at->second = source_of_file(parts_[p].name);
            const std::vector<Value> some = read_of(at->second, both);
            all.insert(all.end(), some.begin(), some.end());
        }
        return all;
    }

  private:
    std::vector<PartFilm> parts_;
    std::map<std::size_t, FilmSource> open_;
};

}  // namespace

FilmSource join_files(const std::vector<std::string>& files) {
    std::vector<PartFilm> parts;
    std::map<std::string, std::string> sums;
    for (const std::string& file : files) {
        FilmSource source = source_of_file(file);
        sums[file] = std::move(source.row_sums);
        parts.push_back({file, std::move(source.about)});
    }
    parts = in_order(std::move(parts));
    std::string row_sums;
    for (const PartFilm& part : parts) {
        check_film(part.name);
        row_sums += sums[part.name];
    }
    NotedFilm about = parts.front().noted;
    about.film.rows = {0, about.film.height};
    const auto open = std::make_shared<OpenParts>(std::move(parts));
    return {std::move(about),
            [open](std::size_t part, const RowRange& rows) {
                return open->read<float>(rows, [&](const FilmSource& source, const RowRange& own) {
                    return source.reals(part, own);
                });
            },
            [open](const RowRange& rows) {
                return open->read<std::int32_t>(
                    rows, [](const FilmSource& source, const RowRange& own) { return source.numbers(own); });
            },
            std::move(row_sums)};
}

void copy_rows(Film& whole, const Film& part) {
    const RowRange held = whole.held_rows();
    const int first_row = std::max(held.first_row, part.rows.first_row);
    const int end_row = std::min(held.end_row, part.rows.end_row);
    if (first_row >= end_row) return;
    const auto to = real_parts(whole);
    const auto from = real_parts(part);
    const Span span{whole.row_start(first_row), part.row_start(first_row),
                    static_cast<std::size_t>(end_row - first_row) * static_cast<std::size_t>(part.width)};
    for (std::size_t i = 0; i < to.size(); ++i) copy_values(to[i], from[i], span);
    copy_values(number_part(whole), number_part(part), span);
}

}  // namespace rakelight
