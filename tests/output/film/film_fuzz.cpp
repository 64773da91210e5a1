// Fuzz target: whatever the bytes, a light file is read whole, or an OutputError says why not; as a part of a
// picture and as rows that a render would go on from as well.
#include <cstddef>
#include <cstdint>

#include "output/film/begun_film.h"
#include "output/film/film_join.h"
#include "output/system/errors.h"
#include "tests/support/fuzz_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rakelight;
    const auto file = test::fuzz_file(data, size, ".exr");
    try {
        const FilmSource source = join_files({file.string()});
        for (const RowRange& rows : bands_of(source.about.film.rows, source.about.film.width)) {
            for (std::size_t part = 0; part < source.about.film.groups.size() + 2; ++part)
                source.reals(part, rows);
            source.numbers(rows);
        }
    } catch (const OutputError&) {
    } catch (const RequestError&) {
    }
    try {
        const FilmAbout about = read_film_about(file);
        if (static_cast<double>(about.width) * about.height < 1e6) read_film(file);
    } catch (const OutputError&) {
    }
    return 0;
}
