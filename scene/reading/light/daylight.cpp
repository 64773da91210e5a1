#include "scene/reading/light/daylight.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "scene/keys/keys.h"
#include "scene/light/sun_position.h"
#include "scene/model/layout.h"

namespace rakelight {
namespace {

constexpr Range kYears{1900, 2100};

/// The whole numbers of "2026-06-21" or "15:00": `counts` digits each, parted by `mark`.
template <std::size_t n>
std::optional<std::array<int, n>> numbers_between(std::string_view text, char mark,
                                                  const std::array<std::size_t, n>& counts) {
    std::array<int, n> numbers{};
    for (std::size_t i = 0; i < n; ++i) {
        if (i > 0) {
            if (text.empty() || text.front() != mark) return {};
            text.remove_prefix(1);
        }
        const std::string_view digits = text.substr(0, counts[i]);
        const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
        if (digits.size() != counts[i] || !std::all_of(digits.begin(), digits.end(), is_digit)) return {};
        std::from_chars(digits.data(), digits.data() + digits.size(), numbers[i]);
        text.remove_prefix(counts[i]);
    }
    if (!text.empty()) return {};
    return numbers;
}

bool read_date(Section& in, CalendarDay& day) {
    std::string text;
    if (!in.set(text, "date")) return false;
    const auto parts = numbers_between<3>(text, '-', {4, 2, 2});
    if (!parts) {
        in.problem("date", "found " + quoted(text) + ", expected a date as year-month-day, 2026-06-21");
        return false;
    }
    day = {(*parts)[0], (*parts)[1], (*parts)[2]};
    if (!exists(day)) {
        in.problem("date", "found " + quoted(text) + ", expected a day of the calendar");
        return false;
    }
    if (day.year < kYears.low || day.year > kYears.high) {
        in.problem("date", fmt::format("found the year {}, expected {:.0f} to {:.0f}", day.year, kYears.low,
                                       kYears.high));
        return false;
    }
    return true;
}

bool read_time(Section& in, double& hour) {
    std::string text;
    if (!in.set(text, "time")) return false;
    const auto parts = numbers_between<2>(text, ':', {2, 2});
    if (!parts || (*parts)[0] > 23 || (*parts)[1] > 59) {
        in.problem("time", "found " + quoted(text) + ", expected a time from 00:00 to 23:59");
        return false;
    }
    hour = (*parts)[0] + (*parts)[1] / 60.0;
    return true;
}

void read_bearing(Section& in, double& facing_deg) {
    const YamlValue* value = in.find("facing");
    if (!value) return;
    const bool word = value->shape == YamlValue::Shape::scalar && !value->text.empty() &&
                      value->text.front() >= 'a' && value->text.front() <= 'z';
    if (!word) {
        in.set(facing_deg, "facing");
        return;
    }
    std::size_t index = 0;
    if (in.set_word(index, "facing")) facing_deg = 45.0 * static_cast<double>(index);
}

/// Date, time and latitude belong together: all of them or none.
void read_sun_time(Section& in, Daylight& daylight) {
    constexpr std::array kKeys{"date", "time", "latitude"};
    const auto given =
        std::count_if(kKeys.begin(), kKeys.end(), [&](const char* key) { return in.has(key); });
    const bool wanted = given > 0 || daylight.sky == SkyKind::clear || in.has("longitude");
    if (wanted)
        for (const char* key : kKeys)
            in.require(key, "the date, the time and the latitude: the sun needs them");
    SunTime time;
    bool good = given == static_cast<long>(kKeys.size());
    good &= read_date(in, time.day);
    good &= read_time(in, time.hour);
    good &= in.set(time.latitude_deg, "latitude");
    if (double longitude = 0; in.set(longitude, "longitude")) time.longitude_deg = longitude;
    if (in.has("longitude") != in.has("utc offset"))
        in.problem(
            in.has("utc offset") ? "utc offset" : "longitude",
            "found one of longitude and utc offset, expected both, or neither when the time is sun time");
    in.set(time.zone_h, "utc offset");
    if (good) daylight.time = time;
}

void set_lux(Section& in, std::optional<double>& target, std::string_view key) {
    if (double lux = 0; in.set(lux, key)) target = lux;
}

}  // namespace

void read_daylight(Section& file, Layout& layout) {
    const YamlValue* value = file.find("daylight");
    if (!value) return;
    Daylight& daylight = layout.on.daylight = {};
    Section in(*value, file, "daylight");
    std::size_t sky = 0;
    in.set_word(sky, "sky");
    daylight.sky = static_cast<SkyKind>(sky);
    read_sun_time(in, daylight);
    read_bearing(in, daylight.facing_deg);
    set_lux(in, daylight.sky_lux, "lux");
    set_lux(in, daylight.sun_lux, "sun");
    if (daylight.sky == SkyKind::overcast && daylight.sun_lux.value_or(0) > 0)
        in.problem("sun", "found sun under an overcast sky, expected sky: clear with it");
    if (double kelvin = 0; in.set(kelvin, "temperature")) daylight.temperature_k = kelvin;
    in.set(daylight.ground_reflectance, "ground");
    in.finish();
    if (layout.on.windows.empty() && (&file.table() != &keys::layout || !file.has("set-ups")))
        layout.warnings.push_back(
            fmt::format("{}:{}:{}: daylight: the room has no windows, so none of it comes in",
                        in.place().file, in.place().line, in.place().column));
}

}  // namespace rakelight
