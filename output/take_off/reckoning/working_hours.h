// How long the work takes, as a range: laying by opus and area, grouting by zone, masking by the length of
// the boundaries. Hours per area are common practice, no published source; they are quoted per square foot
// and kept per m2.
#pragma once

#include <vector>

#include "output/take_off/reckoning/grout_zones.h"
#include "output/take_off/reckoning/workshop.h"
#include "scene/model/field.h"

namespace rakelight {

/// Laying, cutting included. Pieces under 3 mm wide count as micro-mosaic whatever the opus. `narrow_mm`: the
/// width of the pieces laid; 0 = none.
HourSpan usual_hours(const Field& field, double narrow_mm);

struct WorkingHours {
    struct Hours {
        double low_h = 0;
        double high_h = 0;
    };
    std::vector<Hours> laying;  ///< one a field
    Hours masking;
    Hours grouting;
    Hours all() const;
};

WorkingHours working_hours(const std::vector<Field>& fields, const LaidVolumes& volumes,
                           const std::vector<GroutZone>& zones, const std::vector<ZoneBoundary>& boundaries,
                           const TakeOffWishes& wishes);

}  // namespace rakelight
