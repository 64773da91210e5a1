#include "output/take_off/reckoning/working_hours.h"

#include <algorithm>

#include "scene/opus/opera.h"

namespace rakelight {

namespace {

constexpr double kSquareFeet_per_m2 = 1 / 0.09290304;
constexpr double kMicro_mm = 3;

}  // namespace

HourSpan usual_hours(const Field& field, double narrow_mm) {
    const auto per_square_foot = [](double low, double high) {
        return HourSpan{low * kSquareFeet_per_m2, high * kSquareFeet_per_m2};
    };
    if (narrow_mm > 0 && narrow_mm < kMicro_mm) return per_square_foot(100, 200);
    const auto& [low, high] = rule_of(field.opus).hours_per_square_foot;
    return per_square_foot(low, high);
}

WorkingHours working_hours(const std::vector<Field>& fields, const LaidVolumes& volumes,
                           const std::vector<GroutZone>& zones, const std::vector<ZoneBoundary>& boundaries,
                           const TakeOffWishes& wishes) {
    WorkingHours out;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        const Field& field = fields[f];
        const auto own = wishes.hours.find(field.opus);
        const HourSpan span =
            own != wishes.hours.end() ? own->second : usual_hours(field, volumes.fields[f].narrow_mm);
        const double m2 = volumes.fields[f].ground_mm2 / 1e6;
        out.laying.push_back({span.low_h_per_m2 * m2, span.high_h_per_m2 * m2});
    }
    // Each boundary is taped for either zone; 30 to 90 minutes a metre.
    for (const ZoneBoundary& b : boundaries) {
        out.masking.low_h += 2 * 0.5 * b.length_mm / 1000;
        out.masking.high_h += 2 * 1.5 * b.length_mm / 1000;
    }
    // At least a quarter of an hour each, to mix and to clean.
    for (const GroutZone& zone : zones) {
        const double square_feet = zone.area_mm2 / 1e6 * kSquareFeet_per_m2;
        out.grouting.low_h += std::max(0.25, 0.3 * square_feet);
        out.grouting.high_h += std::max(0.5, 0.7 * square_feet);
    }
    return out;
}

WorkingHours::Hours WorkingHours::all() const {
    Hours sum{masking.low_h + grouting.low_h, masking.high_h + grouting.high_h};
    for (const Hours& span : laying) {
        sum.low_h += span.low_h;
        sum.high_h += span.high_h;
    }
    return sum;
}

}  // namespace rakelight
