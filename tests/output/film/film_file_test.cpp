// What is written comes back to the bit; the layout of the file is looked at through OpenImageIO.
#include "output/film/film_file.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(FilmFile, WholeFilmComesBackToTheBit) {
    const test::Folder folder;
    const Film film = test::make_film(37, 21);
    PictureNotes notes = test::make_notes();
    notes.ev = 1.0 / 3;
    write_film(folder / "a.exr", film, notes);
    EXPECT_EQ(folder.entries(), 1u);
    const NotedFilm back = read_film(folder / "a.exr");
    EXPECT_TRUE(test::same_film(film, back.film));
    EXPECT_EQ(notes, back.notes);
}

// A group for each of a hundred lamps, as a layout without groups has.
TEST(FilmFile, ManyGroupsComeBack) {
    const test::Folder folder;
    Film film = test::make_film(19, 16);
    PictureNotes notes = test::make_notes();
    for (int lamp = 3; lamp <= 100; ++lamp) {
        film.groups.push_back("lamp " + std::to_string(lamp));
        film.xyz.push_back(film.xyz[static_cast<std::size_t>(lamp % 2)]);
        notes.illuminance_xyz.push_back({1, 2, 3});
    }
    write_film(folder / "a.exr", film, notes);
    const NotedFilm back = read_film(folder / "a.exr");
    EXPECT_TRUE(test::same_film(film, back.film));
    EXPECT_EQ(notes, back.notes);
}

TEST(FilmFile, RowsComeBackWhereTheyBelong) {
    const test::Folder folder;
    const Film film = test::make_film(19, 40, {13, 29});
    write_film(folder / "a.exr", film, test::make_notes());
    EXPECT_TRUE(test::same_film(film, read_film(folder / "a.exr").film));
}

TEST(FilmFile, PartsForOtherPrograms) {
    const test::Folder folder;
    write_film(folder / "a.exr", test::make_film(19, 40, {13, 29}), test::make_notes());
    const auto in = OIIO::ImageInput::open((folder / "a.exr").string());
    ASSERT_TRUE(in);
    std::vector<std::string> names;
    for (int part = 0; in->seek_subimage(part, 0); ++part) {
        const OIIO::ImageSpec& spec = in->spec();
        names.push_back(spec.get_string_attribute("oiio:subimagename"));
        EXPECT_EQ(spec.full_width, 19);
        EXPECT_EQ(spec.full_height, 40);
        EXPECT_EQ(spec.y, 13);
        EXPECT_EQ(spec.height, 16);
        EXPECT_EQ(spec.format, part == 5 ? OIIO::TypeDesc::UINT32 : OIIO::TypeDesc::FLOAT);
        EXPECT_EQ(spec.get_string_attribute("compression"), "zip");
        if (part >= 2) continue;
        for (const char* channel : {"X", "Y", "Z"}) EXPECT_GE(spec.channelindex(channel), 0);
    }
    EXPECT_EQ(names, (std::vector<std::string>{"light 1: spots", "light 2: window: north", "features",
                                               "error", "for filters", "numbers"}));
}

// A second later, lest a time of day go unnoticed.
TEST(FilmFile, SameBytesEachTime) {
    const test::Folder folder;
    write_film(folder / "a.exr", test::make_film(37, 21), test::make_notes());
    std::this_thread::sleep_for(std::chrono::milliseconds(1100));
    write_film(folder / "b.exr", test::make_film(37, 21), test::make_notes());
    EXPECT_TRUE(test::bytes_of(folder / "a.exr") == test::bytes_of(folder / "b.exr"));
    EXPECT_EQ(test::bytes_of(folder / "a.exr").find(folder.path().string()), std::string::npos);
}

// Wherever in the file the disk runs full, the last bytes included.
TEST(FilmFile, FullDiskLeavesNothing) {
    const test::Folder folder;
    const Film film = test::make_film(60, 50);
    write_film(folder / "a.exr", film, test::make_notes());
    const std::uintmax_t size = std::filesystem::file_size(folder / "a.exr");
    std::filesystem::remove(folder / "a.exr");
    std::vector<std::uintmax_t> limits{0, 1, size - 100, size - 1};
    for (std::uintmax_t limit = 500; limit < size; limit += size / 40) limits.push_back(limit);
    for (const std::uintmax_t limit : limits) {
        const test::FullDisk full(limit);
        EXPECT_THROW(write_film(folder / "a.exr", film, test::make_notes()), OutputError) << limit;
        EXPECT_EQ(folder.entries(), 0u) << limit;
    }
    const test::FullDisk roomy(size);
    write_film(folder / "a.exr", film, test::make_notes());
    EXPECT_TRUE(test::same_film(film, read_film(folder / "a.exr").film));
}

// Damage anywhere must be an OutputError or go unnoticed in the pixels, never anything else.
TEST(FilmFile, RefusesDamagedAndForeignFiles) {
    const test::Folder folder;
    EXPECT_THROW(read_film(folder / "missing.exr"), OutputError);
    EXPECT_THROW(read_film(folder.path()), OutputError);
    std::ofstream(folder / "text.exr") << "not a picture";
    EXPECT_THROW(read_film(folder / "text.exr"), OutputError);
    write_film(folder / "a.exr", test::make_film(37, 21), test::make_notes());
    const std::string whole = test::bytes_of(folder / "a.exr");
    for (std::size_t length = 0; length < whole.size(); length += 97) {
        std::ofstream(folder / "cut.exr", std::ios::binary) << whole.substr(0, length);
        EXPECT_THROW(read_film(folder / "cut.exr"), OutputError) << length;
    }
    for (std::size_t at = 0; at < whole.size(); at += 61) {
        std::string damaged = whole;
        damaged[at] = static_cast<char>(damaged[at] ^ 0x5a);
        std::ofstream(folder / "cut.exr", std::ios::binary) << damaged;
        try {
            read_film(folder / "cut.exr");
        } catch (const OutputError&) {
        }
    }
}

// A row of a picture of 332 GB, deflated to nothing: memory is taken for the row alone.
TEST(FilmFile, MemoryIsTakenForTheRowsThatAreThere) {
    const test::Folder folder;
    Film film = test::make_film(1, 1);
    PictureNotes notes = test::make_notes();
    film.width = film.height = 16384;
    while (film.groups.size() < 100) {
        film.groups.push_back("lamp " + std::to_string(film.groups.size()));
        notes.illuminance_xyz.push_back({1, 2, 3});
    }
    hold_rows(film, {4000, 4001});
    film.rows = {4000, 4001};
    film.samples.back() = 7;
    write_film(folder / "a.exr", film, notes);
    EXPECT_EQ(read_film_about(folder / "a.exr").height, 16384);
    const Film back = read_film(folder / "a.exr").film;
    EXPECT_EQ(back.pixel_count(), 16384u);
    EXPECT_TRUE(test::same_film(film, back));
}

// Found by fuzzing: a header whose attribute says that it is 2 GB long, which OpenEXR believes.
TEST(FilmFile, TakesNoMoreMemoryThanTheFileIsLong) {
    const test::Folder folder;
    write_film(folder / "a.exr", test::make_film(37, 21), test::make_notes());
    std::string bytes = test::bytes_of(folder / "a.exr");
    const std::size_t at = bytes.find(std::string("Software\0string\0", 16));
    ASSERT_NE(at, std::string::npos);
    bytes.replace(at + 16, 4, std::string("\0\0\0\x76", 4));
    folder.write("long.exr", bytes);
    const pid_t child = ::fork();
    if (child == 0) {
        try {
            read_film(folder / "long.exr");
        } catch (const OutputError&) {
            ::_exit(0);
        }
        ::_exit(1);
    }
    int status = -1;
    rusage used{};
    ::wait4(child, &status, 0, &used);
    EXPECT_EQ(status, 0);
    EXPECT_LT(used.ru_maxrss / 1024, 500);
}

// Found by fuzzing: a channel of a kind that OpenEXR does not know ends the program there (SIGABRT).
TEST(FilmFile, ChannelsOfNoKindAreRefused) {
    const test::Folder folder;
    write_film(folder / "a.exr", test::make_film(37, 21), test::make_notes());
    const std::string whole = test::bytes_of(folder / "a.exr");
    const std::size_t at = whole.find(std::string("channels\0chlist\0", 16)) + 16 + 4;
    ASSERT_EQ(whole.substr(at, 2), std::string("X\0", 2));
    for (const char kind : {'\3', '\x7f'}) {
        std::string bytes = whole;
        bytes[at + 2] = kind;
        folder.write("kind.exr", bytes);
        EXPECT_THROW(read_film(folder / "kind.exr"), OutputError);
    }
}

// Readers of other formats are never asked.
TEST(FilmFile, IsReadAsOpenExrOrNotAtAll) {
    const test::Folder folder;
    const std::string picture = (folder / "picture.png").string();
    const auto out = OIIO::ImageOutput::create("png");
    ASSERT_TRUE(out && out->open(picture, OIIO::ImageSpec(4, 4, 3, OIIO::TypeDesc::UINT8)));
    ASSERT_TRUE(out->write_image(OIIO::TypeDesc::UINT8, std::vector<unsigned char>(48, 7).data()) &&
                out->close());
    std::filesystem::rename(picture, folder / "light.exr");
    try {
        read_film(folder / "light.exr");
        ADD_FAILURE() << "no light in a PNG";
    } catch (const OutputError& e) {
        // Else it would be a picture that only lacks our notes.
        EXPECT_EQ(std::string(e.what()).find("not a film that rakelight wrote"), std::string::npos)
            << e.what();
    }
}

}  // namespace
}  // namespace rakelight
