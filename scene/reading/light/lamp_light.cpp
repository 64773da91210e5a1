#include "scene/reading/light/lamp_light.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>

#include "materials/colour/tristimulus_weights.h"
#include "scene/keys/keys.h"
#include "scene/light/lamp_forms.h"
#include "scene/light/photometric_file.h"
#include "scene/model/layout.h"
#include "scene/text/csv.h"
#include "scene/text/diagnostics.h"

namespace rakelight {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kMostCurveBytes = 1u << 20;
using keys::kLamp_nm, keys::kPower;

using Shape = YamlValue::Shape;
using Points = std::vector<SpectralPoint>;
using Complain = std::function<void(std::string)>;

// Adds a reading, or says why not.
void add(Points& points, double nm, double power, const Complain& complain) {
    if (!(nm >= kLamp_nm.low && nm <= kLamp_nm.high))
        return complain(fmt::format("found {}, expected a wavelength from 200 to 3000 nm", number_text(nm)));
    if (!(power >= kPower.low && power <= kPower.high))
        return complain(fmt::format("found {}, expected a relative power, 0 or more", number_text(power)));
    if (!points.empty() && nm <= points.back().wavelength_nm)
        return complain(fmt::format("found {} nm after {} nm, expected rising wavelengths", number_text(nm),
                                    number_text(points.back().wavelength_nm)));
    points.push_back({nm, power});
}

Points points_of_list(const YamlValue& value, Section& in) {
    Points points;
    for (const YamlValue& item : value.items) {
        double pair[2] = {};
        const std::string key = in.path("spectrum");
        if (item.shape != Shape::list || item.items.size() != 2)
            in.problems().add(item, key, "found " + found(item) + ", expected a pair [nm, power]");
        else if (read_number(pair[0], item.items[0], key, Quantity::plain, kLamp_nm, in.problems()) &&
                 read_number(pair[1], item.items[1], key, Quantity::plain, kPower, in.problems()))
            add(points, pair[0], pair[1],
                [&](std::string text) { in.problems().add(item, key, std::move(text)); });
    }
    return points;
}

Points points_of_file(const fs::path& path, Section& in) {
    Points points;
    const std::string file = path.string();
    std::error_code error;
    if (!fs::is_regular_file(path, error) || fs::file_size(path, error) > kMostCurveBytes) {
        in.problem("spectrum", fmt::format("found no file {} of at most 1 MiB, expected a table of lines nm, "
                                           "power beside the layout, or a list [[nm, power], ...]",
                                           rakelight::quoted(file)));
        return points;
    }
    std::ifstream stream(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream), {}};
    CsvReader reader(text);
    bool heading = true;
    for (std::vector<CsvCell> cells; reader.next(cells); heading = false) {
        const auto complain_at = [&](const CsvCell& cell, std::string what) {
            in.problems().add(Place{file, cell.line, cell.column}, "", std::move(what));
        };
        const auto complain = [&](std::string what) { complain_at(cells[0], std::move(what)); };
        if (cells[0].text.starts_with('#')) continue;
        const Measure nm = read_measure(cells[0].text, Quantity::plain);
        if (!nm.ok() && heading) continue;
        if (!nm.ok() || cells.size() < 2) {
            complain("found " + rakelight::quoted(cells[0].text) + ", expected a line of wavelength, power");
            continue;
        }
        const Measure power = read_measure(cells[1].text, Quantity::plain);
        if (power.ok())
            add(points, nm.value, power.value, complain);
        else
            complain_at(cells[1], power.problem);
    }
    if (!reader.problem().empty())
        in.problems().add(Place{file, reader.line(), reader.column()}, "", reader.problem());
    return points;
}

void only_for(Section& in, const char* key, bool good, const std::string& expected) {
    if (in.has(key) && !good) in.problem(key, fmt::format("found {}, expected it only of {}", key, expected));
}

void read_doors(Section& in, BarnDoors& doors) {
    for_mapping(in, "barn doors", [&](Section& s) {
        s.require("length", "how far the doors reach from their hinges");
        s.set(doors.length_mm, "length");
        const char* const sides[] = {"left", "right", "top", "bottom"};
        bool any = false;
        for (std::size_t i = 0; i < 4; ++i)
            if (double open = 0; s.set(open, sides[i])) {
                doors.open_deg[i] = open;
                any = true;
            } else {
                any = any || s.has(sides[i]);
            }
        if (!any)
            s.problem("", "found no door, expected left, right, top or bottom: opened by so many degrees");
    });
}

void read_tubes(Section& in, Honeycomb& honeycomb) {
    for_mapping(in, "honeycomb", [&](Section& s) {
        s.require("cell", "the diameter of a cell");
        s.require("depth", "how deep its cells are");
        double cell = 0, depth = 0;
        const bool has_cell = s.set(cell, "cell");
        const bool has_depth = s.set(depth, "depth");
        if (has_cell && has_depth) honeycomb = {cell, depth};
    });
}

void read_snoot(Section& in, Lamp& lamp) {
    for_mapping(in, "snoot", [&](Section& s) {
        s.require("length", "how long its tube is");
        lamp.fittings.snoot.width_mm = lamp.width_mm;
        s.set(lamp.fittings.snoot.length_mm, "length");
        s.set(lamp.fittings.snoot.width_mm, "width");
    });
}

}  // namespace

void read_photometry(Section& in, Lamp& lamp, Layout& layout, PhotometricShelf& shelf) {
    std::string name;
    if (!in.set(name, "photometry")) return;
    lamp.form = LampForm::measured;
    if (in.has("form"))
        in.problem("form", "found form and photometry, expected one of them: the file says the form");
    const fs::path path = fs::path(layout.sources.path).parent_path() / name;
    const auto [place, is_new] = shelf.try_emplace(path.string());
    if (is_new) {
        std::error_code error;
        if (!fs::is_regular_file(path, error)) {
            in.problem("photometry", fmt::format("found no file {}, expected a photometric file (LM-63) "
                                                 "beside the layout",
                                                 rakelight::quoted(path.string())));
            return;
        }
        layout.sources.files.push_back(path.string());
        try {
            place->second = std::make_shared<const PhotometricFile>(read_photometric_file(path));
            for (const std::string& note : place->second->notes)
                layout.warnings.push_back(path.string() + ": " + note);
        } catch (const LayoutError& error_of_file) {
            for (const Problem& p : error_of_file.problems()) in.problems().add(p.place, p.key, p.text);
        }
    }
    lamp.measured = place->second;
    if (lamp.measured && lamp.measured->opening != Opening::point && in.has("width"))
        in.problem("width", "found the width of a lamp whose file says its size, expected none");
}

void read_own_spectrum(Section& in, Lamp& lamp, Layout& layout) {
    const YamlValue* value = in.find("spectrum");
    if (!value) return;
    if (in.has("temperature") || in.has("illuminant"))
        in.problem("spectrum", "found spectrum beside temperature or illuminant, expected one of the three");
    Points points;
    if (value->shape == Shape::list && value->items.size() <= 5000) {
        points = points_of_list(*value, in);
    } else if (std::string name; value->shape == Shape::scalar && in.set(name, "spectrum")) {
        const fs::path path = fs::path(layout.sources.path).parent_path() / name;
        points = points_of_file(path, in);
        if (!points.empty()) layout.sources.files.push_back(path.string());
    } else {
        in.problem("spectrum", "found " + found(*value) + ", expected [[nm, power], ...] or a CSV file");
    }
    if (points.empty()) return;
    Spectrum spectrum = spectrum_from_points(points, Between::linear, Outside::zero);
    try {
        (void)tristimulus_weights(spectrum);
        lamp.spectrum = spectrum;
    } catch (const std::invalid_argument&) {
        in.problem("spectrum",
                   "found no light at any of 380, 385 .. 780 nm, expected a lamp that can be seen");
    }
}

void read_fittings(Section& in, Lamp& lamp) {
    const LampFormRule& rule = rule_of(lamp.form);
    read_doors(in, lamp.fittings.doors);
    read_tubes(in, lamp.fittings.honeycomb);
    read_snoot(in, lamp);
    only_for(in, "barn doors", rule.faces_one_way, "a lamp that faces one way");
    only_for(in, "honeycomb", rule.faces_one_way, "a lamp that faces one way");
    only_for(in, "snoot", rule.takes_snoot, "a " + lamp_forms_that(&LampFormRule::takes_snoot));
}

}  // namespace rakelight
