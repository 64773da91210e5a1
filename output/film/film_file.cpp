#include "output/film/film_file.h"

#include <OpenImageIO/imageio.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <utility>

#include "output/film/checksum.h"
#include "output/film/film_channels.h"
#include "output/film/film_source.h"
#include "output/film/notes_json.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "scene/picture_file/exr_header.h"

namespace rakelight {

namespace {

constexpr int kFormatVersion = 4;
constexpr int kUnguidedVersion = 2;  // without the part "for filters": of films that earlier versions wrote
constexpr int kMostSide_px = 16384;
constexpr std::size_t kMostGroups = 4096;  // as many lamps and windows as a layout may have, and more
constexpr const char* kNotesKey = "rakelight";

template <class Value>
OIIO::ImageSpec part_spec(const FilmPart<Value>& part, const Film& film) {
    constexpr bool real = std::is_same_v<std::remove_const_t<Value>, float>;
    OIIO::ImageSpec spec(film.width, film.rows.end_row - film.rows.first_row,
                         static_cast<int>(part.channels.size()),
                         real ? OIIO::TypeDesc::FLOAT : OIIO::TypeDesc::UINT32);
    spec.y = film.rows.first_row;
    spec.full_width = film.width;
    spec.full_height = film.height;
    spec.channelnames.clear();
    for (const auto& channel : part.channels) spec.channelnames.push_back(channel.name);
    spec.attribute("oiio:subimagename", part.name);
    spec.attribute("compression", "zip");
    spec.attribute("DateTime", "");  // or OpenImageIO would write the time of day
    return spec;
}

std::size_t row_pixels(const Film& film, const RowRange& rows) {
    return static_cast<std::size_t>(rows.end_row - rows.first_row) * static_cast<std::size_t>(film.width);
}

template <class Value>
std::vector<std::remove_const_t<Value>> gather(const FilmPart<Value>& part, const Film& film,
                                               const RowRange& rows) {
    const std::size_t n = part.channels.size();
    std::vector<std::remove_const_t<Value>> packed(n * row_pixels(film, rows));
    for (std::size_t c = 0; c < n; ++c) {
        const auto& channel = part.channels[c];
        for (std::size_t i = 0; i < row_pixels(film, rows); ++i)
            packed[i * n + c] = channel.first[(film.row_start(rows.first_row) + i) * channel.stride];
    }
    return packed;
}

// `read` gives the packed values of rows.
bool write_part(OIIO::ImageOutput& out, const OIIO::ImageSpec& spec, const Film& film, const auto& read) {
    for (const RowRange& rows : bands_of(film.rows, film.width))
        if (!out.write_scanlines(rows.first_row, rows.end_row, 0, spec.format, read(rows).data()))
            return false;
    return true;
}

// OpenEXR ends a file in a destructor, which cannot tell that the disk was full: see whether the last row is
// there.
bool is_complete(const std::string& name) {
    const auto in = OIIO::ImageInput::create("openexr");
    OIIO::ImageSpec spec;
    if (!in || !in->open(name, spec)) return false;
    for (int part = 0; in->seek_subimage(part, 0); ++part) {
        const OIIO::ImageSpec found = in->spec();
        std::vector<unsigned char> row(found.scanline_bytes());
        if (!in->read_scanline(found.y + found.height - 1, 0, found.format, row.data())) return false;
    }
    return true;
}

[[noreturn]] void damaged(const std::filesystem::path& path, std::string_view why) {
    throw OutputError(fmt::format("cannot use {}: {}", path.string(), why));
}

// A film file that is open.
class FilmFile {
  public:
    explicit FilmFile(const std::filesystem::path& path);

    const NotedFilm& about() const { return about_; }
    const std::string& row_sums() const { return row_sums_; }
    const std::filesystem::path& path() const { return path_; }

    bool has(const std::string& part) { return place_of(part).has_value(); }

    // Rows of a part by its name, each channel by its name, exactly where this film says.
    template <class Value>
    std::vector<std::remove_const_t<Value>> read(const FilmPart<Value>& part, const RowRange& rows);

  private:
    // Of the part with this name, which the file then stands at.
    std::optional<int> place_of(const std::string& part) {
        for (int i = 0; in_->seek_subimage(i, 0); ++i)
            if (in_->spec().get_string_attribute("oiio:subimagename") == part) return i;
        return {};
    }

    std::filesystem::path path_;
    std::unique_ptr<OIIO::ImageInput> in_;
    NotedFilm about_;
    std::string row_sums_;
};

template <class Value>
std::vector<std::remove_const_t<Value>> FilmFile::read(const FilmPart<Value>& part, const RowRange& rows) {
    const Film& film = about_.film;
    const OIIO::ImageSpec wanted = part_spec(part, film);
    const std::optional<int> subimage = place_of(part.name);
    if (!subimage) damaged(path_, fmt::format("it has no part \"{}\"", part.name));
    const OIIO::ImageSpec found = in_->spec();
    if (found.width != wanted.width || found.height != wanted.height || found.x != 0 || found.y != wanted.y ||
        found.full_width != film.width || found.full_height != film.height || found.depth != 1)
        damaged(path_, fmt::format("part \"{}\" has another size than the first", part.name));
    if (found.format != wanted.format || found.nchannels != wanted.nchannels)
        damaged(path_, fmt::format("part \"{}\" holds other numbers than expected", part.name));
    const std::size_t n = part.channels.size();
    std::vector<std::remove_const_t<Value>> as_found(n * row_pixels(film, rows));
    if (!in_->read_scanlines(*subimage, 0, rows.first_row, rows.end_row, 0, 0, found.nchannels, found.format,
                             as_found.data()))
        damaged(path_, in_->geterror());
    std::vector<std::remove_const_t<Value>> packed(as_found.size());
    for (std::size_t channel = 0; channel < n; ++channel) {
        const int c = found.channelindex(part.channels[channel].name);
        if (c < 0)
            damaged(path_,
                    fmt::format("part \"{}\" has no channel {}", part.name, part.channels[channel].name));
        for (std::size_t i = 0; i < row_pixels(film, rows); ++i)
            packed[i * n + channel] = as_found[i * n + static_cast<std::size_t>(c)];
    }
    return packed;
}

template <class Value>
void read_part(FilmFile& file, const FilmPart<Value>& part, const Film& film) {
    const auto packed = file.read(part, film.rows);
    const std::size_t n = part.channels.size();
    for (std::size_t c = 0; c < n; ++c)
        for (std::size_t i = 0; i < row_pixels(film, film.rows); ++i)
            part.channels[c].first[(film.row_start(film.rows.first_row) + i) * part.channels[c].stride] =
                packed[i * n + c];
}

// The rows that `film` speaks of, into a film that holds them alone.
void read_rows(FilmFile& file, Film& film) {
    hold_rows(film, film.rows);
    for (const auto& part : real_parts(film)) read_part(file, part, film);
    read_part(file, number_part(film), film);
}

// Before memory is taken: no deflated file is a thousand times smaller than what it holds, and the picture
// must fit into the machine.
void check_size(const Film& film, const std::filesystem::path& path) {
    constexpr std::size_t kMostDeflated = 1032;  // of the deflate format, RFC 1951: 258 bytes in 2 bits
    const std::size_t pixel_bytes = 12 * film.groups.size() + (film.guide.is_there ? 72 : 36);
    if (row_pixels(film, film.rows) * pixel_bytes / kMostDeflated > std::filesystem::file_size(path))
        damaged(path, "it is too short for as many pixels as it speaks of");
    const auto memory = static_cast<std::size_t>(::sysconf(_SC_PHYS_PAGES)) *
                        static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
    if (row_pixels(film, film.rows) * pixel_bytes > memory)
        damaged(path, fmt::format("a picture of {} x {} pixels with {} lamp groups does not fit into memory",
                                  film.width, film.height, film.groups.size()));
}

// What the header says: an object, its last key a checksum of the others.
std::string about_text(nlohmann::ordered_json about) {
    about["checksum"] = checksum(about.dump());
    return about.dump();
}

nlohmann::ordered_json read_about_text(const std::string& text, const std::filesystem::path& path) {
    auto about = nlohmann::ordered_json::parse(text);
    const int version = about.at("version").get<int>();
    if (version != kFormatVersion && version != kUnguidedVersion)
        damaged(path, "another version of rakelight wrote it, or it is damaged");
    const std::string sum = about.at("checksum").get<std::string>();
    about.erase("checksum");
    if (sum != checksum(about.dump())) damaged(path, "its header is damaged");
    return about;
}

// All but the values of the film. Returns the checksums of its rows.
std::string read_about(const OIIO::ImageSpec& first, const std::filesystem::path& path, NotedFilm& noted) {
    Film& film = noted.film;
    std::string sums;
    try {
        const auto about = read_about_text(first.get_string_attribute(kNotesKey), path);
        film.guide.is_there = about.at("version") == kFormatVersion;
        about.at("rows").get_to(sums);
        about.at("groups").get_to(film.groups);
        film.xyz.resize(film.groups.size());
        about.at("materials").get_to(film.materials);
        about.at("notes").get_to(noted.notes);
    } catch (const OutputError&) {
        throw;
    } catch (const std::exception&) {
        damaged(path, "it is not a film that rakelight wrote");
    }
    film.width = first.full_width;
    film.height = first.full_height;
    film.rows = {first.y, first.y + first.height};
    if (film.width < 1 || film.height < 1 || film.width > kMostSide_px || film.height > kMostSide_px ||
        film.rows.first_row < 0 || film.rows.end_row > film.height || film.groups.size() > kMostGroups ||
        noted.notes.illuminance_xyz.size() != film.groups.size())
        damaged(path, "its size makes no sense");
    if (sums.size() != kChecksumDigits * static_cast<std::size_t>(first.height))
        damaged(path, "its rows are not those that its header speaks of");
    return sums;
}

// By the reader of OpenEXR alone: ImageInput::open would try that of every other format on a damaged file.
FilmFile::FilmFile(const std::filesystem::path& path)
    : path_(path), in_(OIIO::ImageInput::create("openexr")) {
    if (!in_) throw OutputError("this OpenImageIO cannot read OpenEXR");
    if (!std::filesystem::is_regular_file(path)) damaged(path, "there is no such file");
    if (!headers_fit(path)) damaged(path, "it is damaged, or no OpenEXR file");
    OIIO::ImageSpec spec;
    if (!in_->open(path.string(), spec)) damaged(path, in_->geterror());
    row_sums_ = read_about(spec, path, about_);
}

// `found`: of rows from `first_row` on, whose checksums the file gives as `said`.
void check_rows(std::string_view found, std::string_view said, int first_row,
                const std::filesystem::path& path) {
    const auto differs = std::mismatch(found.begin(), found.end(), said.begin(), said.end());
    if (differs.first == found.end()) return;
    const auto row = static_cast<std::size_t>(differs.first - found.begin()) / kChecksumDigits;
    damaged(path, fmt::format("row {} is damaged", first_row + static_cast<int>(row) + 1));
}

}  // namespace

void write_film(const std::filesystem::path& path, const FilmSource& source) {
    const auto& [film, notes] = source.about;
    const auto reals = real_parts(film);
    const auto numbers = number_part(film);
    std::vector<OIIO::ImageSpec> specs;
    for (const auto& part : reals) specs.push_back(part_spec(part, film));
    specs.push_back(part_spec(numbers, film));
    if (source.filtered) specs.push_back(part_spec(filtered_part(), film));
    const nlohmann::ordered_json about{{"version", film.guide.is_there ? kFormatVersion : kUnguidedVersion},
                                       {"groups", film.groups},
                                       {"materials", film.materials},
                                       {"notes", notes},
                                       {"rows", source.row_sums}};
    specs.front().attribute(kNotesKey, about_text(about));
    specs.front().attribute("Software", notes.program);

    SafeFile file(path);
    const std::string name = file.hidden().string();
    const auto out = OIIO::ImageOutput::create("openexr");
    if (!out) throw OutputError("this OpenImageIO cannot write OpenEXR");
    bool good = out->open(name, static_cast<int>(specs.size()), specs.data());
    for (std::size_t i = 0; good && i < specs.size(); ++i) {
        if (i > 0) good = out->open(name, specs[i], OIIO::ImageOutput::AppendSubimage);
        if (!good) break;
        if (i < reals.size())
            good =
                write_part(*out, specs[i], film, [&](const RowRange& rows) { return source.reals(i, rows); });
        else
            good = i == reals.size() ? write_part(*out, specs[i], film, source.numbers)
                                     : write_part(*out, specs[i], film, source.filtered);
    }
    good = out->close() && good;
    const std::string why = out->geterror();
    if (!good || !is_complete(name))
        throw OutputError(
            fmt::format("cannot write {}: {}", path.string(), why.empty() ? "the disk may be full" : why));
    file.commit();
}

void write_film(const std::filesystem::path& path, const Film& film, const PictureNotes& notes) {
    write_film(path, source_of(film, notes));
}

FilmAbout read_film_about(const std::filesystem::path& path) {
    const FilmFile file(path);
    const auto& [film, notes] = file.about();
    return {film.width, film.height, film.rows, notes, file.row_sums()};
}

NotedFilm read_film(const std::filesystem::path& path) {
    FilmFile file(path);
    NotedFilm noted = file.about();
    check_size(noted.film, path);
    read_rows(file, noted.film);
    check_rows(row_checksums(noted.film), file.row_sums(), noted.film.rows.first_row, path);
    return noted;
}

void check_film(const std::filesystem::path& path) {
    FilmFile file(path);
    const Film& film = file.about().film;
    check_size(film, path);
    for (const RowRange& rows : bands_of(film.rows, film.width)) {
        Film band = film;
        band.rows = rows;
        read_rows(file, band);
        const std::string found = row_checksums(band);
        const auto first = static_cast<std::size_t>(rows.first_row - film.rows.first_row) * kChecksumDigits;
        check_rows(found, std::string_view(file.row_sums()).substr(first, found.size()), rows.first_row,
                   path);
    }
}

FilmSource source_of(const Film& film, const PictureNotes& notes) {
    NotedFilm about;
    about.film.width = film.width;
    about.film.height = film.height;
    about.film.rows = film.rows;
    about.film.groups = film.groups;
    about.film.xyz.resize(film.groups.size());
    about.film.guide.is_there = film.guide.is_there;
    about.film.materials = film.materials;
    about.notes = notes;
    return {std::move(about),
            [&film](std::size_t part, const RowRange& rows) {
                return gather(real_parts(film)[part], film, rows);
            },
            [&film](const RowRange& rows) { return gather(number_part(film), film, rows); },
            row_checksums(film)};
}

FilmSource source_of_file(const std::filesystem::path& path) {
    const auto file = std::make_shared<FilmFile>(path);
    FilmSource source{
        file->about(),
        [file](std::size_t part, const RowRange& rows) {
            return file->read(real_parts(file->about().film)[part], rows);
        },
        [file](const RowRange& rows) { return file->read(number_part(file->about().film), rows); },
        file->row_sums()};
    if (const auto part = filtered_part(); file->has(part.name))
        source.filtered = [file, part](const RowRange& rows) { return file->read(part, rows); };
    return source;
}

std::vector<RowRange> bands_of(const RowRange& rows, int width) {
    constexpr int kBand_px = 1 << 20;
    constexpr int kLeastRows = 64;
    const int height = std::max(kLeastRows, kBand_px / std::max(1, width));
    std::vector<RowRange> bands;
    for (int row = rows.first_row; row < rows.end_row; row += height)
        bands.push_back({row, std::min(rows.end_row, row + height)});
    return bands;
}

}  // namespace rakelight
