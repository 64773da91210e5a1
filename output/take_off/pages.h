// The parts of the take-off sheet, and what they share.
#pragma once

#include "output/paper/list_setter.h"
#include "output/take_off/sheet.h"

namespace rakelight::take_off_pages {

/// A material as it is laid first.
Rgb8 colour_of(const Laying& laying, const LayingReport& report, std::uint32_t material);
Rgb8 colour_of(const LayingReport& report, const GroutZone& zone);

/// Grout zones with their order, mixes, boundaries, and the days they take.
void set_zone_pages(ListSetter& set, const Layout& layout, const Laying& laying, const LayingReport& report,
                    const TakeOff& take_off);

/// Weight, stones to be anchored, loads of hanging, cautions.
void set_weight_pages(ListSetter& set, const Layout& layout, const Laying& laying, const LayingReport& report,
                      const TakeOff& take_off);

}  // namespace rakelight::take_off_pages
