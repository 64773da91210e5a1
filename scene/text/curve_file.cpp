#include "scene/text/curve_file.h"

#include <fmt/format.h>

#include <fstream>
#include <string>
#include <string_view>

#include "materials/colour/spectrum.h"
#include "scene/text/diagnostics.h"
#include "scene/text/units.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {
namespace {

constexpr std::uintmax_t kMostBytes = 1u << 20;
constexpr double kLastBand_nm = band_wavelength_nm(kBandCount - 1);

struct Cell {
    std::string_view text;
    int column = 1;
};

std::vector<Cell> cells_of(std::string_view line) {
    std::vector<Cell> cells;
    for (std::size_t at = 0;;) {
        const std::size_t end = std::min(line.find_first_of(",;\t", at), line.size());
        std::size_t first = at, last = end;
        while (first < last && line[first] == ' ') ++first;
        while (last > first && (line[last - 1] == ' ' || line[last - 1] == '\r')) --last;
        cells.push_back({line.substr(first, last - first), static_cast<int>(first) + 1});
        if (end == line.size()) return cells;
        at = end + 1;
    }
}

/// Reads one file; what is wrong goes to `problems`.
class CurveReader {
  public:
    CurveReader(std::string file, std::size_t count)
        : file_(std::move(file)), problems_(file_), columns_(count) {}

    void line(std::string_view text, int number) {
        const std::vector<Cell> cells = cells_of(text);
        if (cells[0].text.empty() || cells[0].text.starts_with('#')) return;
        const Measure nm = read_measure(cells[0].text, Quantity::plain);
        if (!nm.ok()) {
            if (last_nm_ == 0 && !heading_) {
                heading_ = true;
                return;
            }
            return complain(number, cells[0].column,
                            "found " + quoted(cells[0].text) + ", expected a wavelength in nm");
        }
        if (cells.size() <= columns_.size())
            return complain(number, 1,
                            fmt::format("found {} values, expected {} after the wavelength", cells.size() - 1,
                                        columns_.size()));
        if (!(nm.value >= 200 && nm.value <= 3000))
            return complain(number, cells[0].column,
                            "found " + quoted(cells[0].text) + ", expected a wavelength in nm");
        if (nm.value <= last_nm_)
            return complain(number, cells[0].column,
                            fmt::format("found {} nm after {} nm, expected rising wavelengths",
                                        number_text(nm.value), number_text(last_nm_)));
        check_gap(nm.value, number);
        last_nm_ = nm.value;
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            const Cell& cell = cells[c + 1];
            const Measure value = read_measure(cell.text, Quantity::share);
            if (!value.ok())
                complain(number, cell.column, value.problem);
            else if (value.value < 0 || value.value > 1)
                complain(number, cell.column,
                         "found " + quoted(cell.text) + ", expected 0 to 1, or 0 % to 100 %");
            else
                columns_[c].push_back({nm.value, value.value});
        }
    }

    std::vector<SampledSpectrum> finish() {
        if (last_nm_ < kLastBand_nm)
            problems_.add(
                {file_, 0, 0}, "",
                last_nm_ == 0
                    ? std::string("found no readings, expected a wavelength and values on each line")
                    : fmt::format("found readings up to {} nm, expected them up to {} nm",
                                  number_text(last_nm_), number_text(kLastBand_nm)));
        problems_.throw_if_any();
        std::vector<SampledSpectrum> r;
        for (const auto& points : columns_) r.push_back(bands_from_points(points, Between::linear));
        return r;
    }

  private:
    void complain(int line, int column, std::string text) {
        problems_.add({file_, line, column}, "", std::move(text));
    }
    void check_gap(double nm, int line) {
        if (last_nm_ == 0 && nm > kFirstBand_nm)
            complain(line, 1,
                     fmt::format("found {} nm first, expected readings from {} nm", number_text(nm),
                                 kFirstBand_nm));
        if (last_nm_ > 0 && last_nm_ < kLastBand_nm && nm > kFirstBand_nm && nm - last_nm_ > kBandStep_nm)
            complain(
                line, 1,
                fmt::format("found nothing between {} and {} nm, expected a reading every {} nm at least",
                            number_text(last_nm_), number_text(nm), kBandStep_nm));
    }

    std::string file_;
    ProblemList problems_;
    std::vector<std::vector<SpectralPoint>> columns_;
    double last_nm_ = 0;
    bool heading_ = false;
};

}  // namespace

std::vector<SampledSpectrum> read_curves(const std::filesystem::path& path, std::size_t count) {
    const std::string file = path.string();
    const auto refuse = [&](std::string text) { throw LayoutError({file, 0, 0}, "", std::move(text)); };
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error))
        refuse("found no such file, expected a table of curves");
    if (std::filesystem::file_size(path, error) > kMostBytes || error)
        refuse("found a file over 1 MiB, expected a table of curves");
    std::ifstream stream(path);
    if (!stream) refuse("cannot be read");
    CurveReader reader(file, count);
    int number = 0;
    for (std::string line; std::getline(stream, line);) reader.line(line, ++number);
    return reader.finish();
}

}  // namespace rakelight
