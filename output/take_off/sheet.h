// The printed take-off: what to buy, what to mix and in which order, how long to wait, how heavy, what to
// anchor, what to beware of. A4 pages; every number is in the JSON too (json.h).
#pragma once

#include "output/lay/report.h"
#include "output/paper/tracing.h"
#include "output/take_off/reckoning/take_off.h"
#include "scene/text/shown_units.h"

namespace rakelight {

struct Layout;

std::vector<Tracing> take_off_sheet(const Layout& layout, const Laying& laying, const LayingReport& report,
                                    const TakeOff& take_off);

/// Money of all that has a price, in the artist's own; 0 when nothing has.
double known_cost(const TakeOff& take_off);

/// "3 sheets of 300 x 300", "2 bags of 5 kg".
std::string packs_text(const Purchase& purchase, Units units = Units::metric);

/// "PB28 4.5 g, PBk11 0.7 g", or "no pigment".
/// "120 g of aqua + 80 g of opal".
std::string frit_text(const Casting& casting);
std::string leaf_text(Leaf leaf);
std::string pigments_text(const Batch& batch);

/// Stem of the files of a zone's mask: "zone-1-foam".
std::string template_name(const TakeOff& take_off, std::size_t zone);

/// With a capital and a full stop.
std::string sentence(std::string text);

/// Why a zone is filled before another, in words.
std::string reason_text(const TakeOff& take_off, const OrderEdge& edge);

}  // namespace rakelight
