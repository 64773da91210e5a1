// Places that are told in millimetres on the printed sheet of marks (output/marks), put into the photograph.
#pragma once

#include <optional>

#include "output/samples/desk.h"

namespace rakelight {

/// Calls `each(box, what it is)` for every rectangle of a photograph.
template <class Said, class Each>
void for_boxes(Said& said, Each each) {
    for (auto& spot : said.spots) each(spot.box, "a sample");
    for (auto& box : said.white_sheet) each(box, "a white sheet");
    if (said.white_card) each(*said.white_card, "the white card");
    if (said.black_card) each(*said.black_card, "the black card");
}

/// Finds the sheet in the picture, by a program of its own, and turns what `on.said` has in millimetres to
/// pixels. Complains of a sheet that is not found and of places outside of the picture. \return how far the
/// sheet's marks lie off a flat sheet, root mean square, mm.
std::optional<double> put_into_picture(Desk& desk, OnDesk& on);

}  // namespace rakelight
