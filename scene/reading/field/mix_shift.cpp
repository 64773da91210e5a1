#include "scene/reading/field/mix_shift.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/model/layout.h"
#include "scene/reading/field/strokes.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;
using By = MixShift::By;

bool read_shades(Section& mix, MixShift& shift, MixReading r) {
    const YamlValue& shades = *mix.find("shades");
    const std::string key = mix.path("shades");
    bool good = true;
    if (shades.shape == Shape::list) {
        if (shades.items.size() > kMostMixed) {
            mix.problem("shades", fmt::format("found {}, expected at most {}", found(shades), kMostMixed));
            return false;
        }
        for (std::size_t i = 0; i < shades.items.size(); ++i) {
            const std::string path = fmt::format("{}[{}]", key, i + 1);
            if (auto parts = read_parts(shades.items[i], path, r))
                shift.shades.push_back(std::move(*parts));
            else
                good = false;
        }
    } else {
        const auto materials = read_materials(shades, key, r);
        good = !materials.empty();
        for (const std::uint32_t material : materials) shift.shades.push_back({{material, 1}});
    }
    if (good && shift.shades.size() < 2) {
        mix.problem("shades",
                    "found " + found(shades) + ", expected a ladder or a list of at least two shades");
        good = false;
    }
    return good;
}

std::optional<Stroke> read_own_line(Section& mix, std::string_view key, const YamlValue& value) {
    auto line = read_stroke(value, mix.path(key), false, keys::line, mix.problems());
    if (line) check_guide(*line, mix.path(key), mix.problems());
    return line;
}

// A guide by its number, or a line of its own.
std::optional<Stroke> read_line(Section& mix, std::string_view key, MixReading r) {
    const YamlValue& value = *mix.find(key);
    if (value.shape != Shape::scalar) return read_own_line(mix, key, value);
    const auto guides = static_cast<double>(r.field.guides.size());
    if (guides == 0) {
        mix.problem(key, "found " + found(value) + " in a field without guides, expected a line of its own");
        return std::nullopt;
    }
    int number = 0;
    if (!mix.set(number, key, {1, guides})) return std::nullopt;
    return r.field.guides[static_cast<std::size_t>(number - 1)];
}

// The field's own edge, an earlier field by name, or a line.
std::optional<Stroke> read_away(Section& mix, MixShift& shift, MixReading r) {
    const YamlValue& value = *mix.find("away from");
    if (value.shape != Shape::scalar) return read_own_line(mix, "away from", value);
    const auto edge_of = [&](const Field& field) {
        shift.more_lines = field.more_rings;
        return field.outline;
    };
    if (value.text == "edge") return edge_of(r.field);
    std::vector<std::string> names{"edge"};
    for (const Field& other : r.layout.fields) {
        if (other.name == value.text) return edge_of(other);
        names.push_back(other.name);
    }
    if (read_measure(value.text, Quantity::plain).ok()) return read_line(mix, "away from", r);
    mix.problem("away from",
                "found " + quoted(value.text) +
                    ", expected edge, the name of a field laid earlier, the number of a guide, or "
                    "a line" +
                    did_you_mean(value.text, names));
    return std::nullopt;
}

bool read_way(Section& mix, MixShift& shift, MixReading r) {
    constexpr std::array<const char*, 4> kWays{"along", "across", "away from", "towards"};  // as By
    int ways = 0;
    for (std::size_t w = 0; w < kWays.size(); ++w)
        if (mix.find(kWays[w])) {
            ++ways;
            shift.by = static_cast<By>(w);
        }
    if (ways != 1) {
        mix.problem("shades",
                    fmt::format("found {} of along, across, away from and towards beside the shades, "
                                "expected one of them",
                                ways ? "several" : "none"));
        return false;
    }
    const std::string_view key = kWays[static_cast<std::size_t>(shift.by)];
    if (shift.by == By::towards) return mix.set(shift.direction_deg, key);
    auto line = shift.by == By::away ? read_away(mix, shift, r) : read_line(mix, key, r);
    if (line) shift.line = std::move(*line);
    return line.has_value();
}

bool read_stations(Section& mix, MixShift& shift) {
    const bool shares = shift.by == By::along || shift.by == By::towards;
    const Quantity quantity = shares ? Quantity::share : Quantity::length_mm;
    const Range range =
        shares ? Range{0, 1}
               : Range{shift.by == By::away ? 0.0 : keys::kNearPanel_mm.low, keys::kNearPanel_mm.high};
    const YamlValue* at = mix.find("at");
    const YamlValue* over = mix.find("over");
    if (!at && !over) return true;
    if (at && over) {
        mix.problem("over", "found both over and at, expected one of them");
        return false;
    }
    std::vector<double> stations(at ? shift.shades.size() : 2);
    const std::string_view key = at ? "at" : "over";
    if (!mix.set(std::span(stations), key, quantity, range)) return false;
    if (!at) {
        const double from = stations[0], to = stations[1];
        stations.resize(shift.shades.size());
        for (std::size_t s = 0; s < stations.size(); ++s)
            stations[s] =
                from + (to - from) * static_cast<double>(s) / static_cast<double>(stations.size() - 1);
    }
    if (stations.front() > stations.back()) {
        std::reverse(stations.begin(), stations.end());
        std::reverse(shift.shades.begin(), shift.shades.end());
    }
    for (std::size_t s = 1; s < stations.size(); ++s)
        if (!(stations[s] > stations[s - 1])) {
            mix.problem(key, fmt::format("found {:g} after {:g}, expected rising places", stations[s],
                                         stations[s - 1]));
            return false;
        }
    shift.at = std::move(stations);
    return true;
}

}  // namespace

void read_mix_shift(const YamlValue& value, MixReading r) {
    Section mix(value, r.in.path("mix"), keys::shades, r.in.problems());
    MixShift shift;
    bool good = read_shades(mix, shift, r);
    good &= read_way(mix, shift, r);
    // The places are counted against the shades.
    mix.find("at");
    mix.find("over");
    if (good) good = read_stations(mix, shift);
    mix.set(shift.blend, "blend");
    mix.finish();
    if (!good) return;
    for (const auto& shade : shift.shades)
        for (const MixPart& part : shade)
            add_to_mix(r.field, part.material, part.share / static_cast<double>(shift.shades.size()));
    r.field.shift = std::move(shift);
}

}  // namespace rakelight
