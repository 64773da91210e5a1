#include "scene/reading/stock/spectrum.h"

#include <vector>

#include "materials/colour/spectrum.h"
#include "scene/keys/keys.h"

namespace rakelight {
namespace {

using keys::kMaterial_nm;
constexpr size_t kMostPoints = 1000;

}  // namespace

std::optional<SampledSpectrum> read_spectrum(const YamlValue& value, const std::string& key, Range range,
                                             ProblemList& problems) {
    if (value.shape == YamlValue::Shape::scalar) {
        double number = 0;
        if (!read_number(number, value, key, Quantity::share, range, problems)) return std::nullopt;
        return SampledSpectrum(static_cast<float>(number));
    }
    if (value.shape != YamlValue::Shape::list || value.items.empty() || value.items.size() > kMostPoints) {
        problems.add(value, key,
                     "found " + found(value) + ", expected a share or a table [[nm, value], ...] of 1 to " +
                         std::to_string(kMostPoints) + " points");
        return std::nullopt;
    }
    std::vector<SpectralPoint> table;
    bool good = true;
    for (const YamlValue& item : value.items) {
        if (item.shape != YamlValue::Shape::list || item.items.size() != 2) {
            problems.add(item, key, "found " + found(item) + ", expected a pair [nm, value]");
            good = false;
            continue;
        }
        SpectralPoint p;
        if (!read_number(p.wavelength_nm, item.items[0], key, Quantity::plain, kMaterial_nm, problems) ||
            !read_number(p.value, item.items[1], key, Quantity::share, range, problems)) {
            good = false;
            continue;
        }
        if (!table.empty() && p.wavelength_nm <= table.back().wavelength_nm) {
            problems.add(item, key,
                         "found " + number_text(p.wavelength_nm) + " nm after " +
                             number_text(table.back().wavelength_nm) + " nm, expected rising wavelengths");
            good = false;
        }
        table.push_back(p);
    }
    if (!good) return std::nullopt;
    return bands_from_points(table, Between::linear);
}

}  // namespace rakelight
