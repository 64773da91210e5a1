// What a field takes from the drawing: closed paths are its outline, open ones its guides.
#pragma once

#include <optional>
#include <string>

#include "scene/geometry/stroke.h"
#include "scene/model/field.h"
#include "scene/reading/field/drawn_sheet.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

struct DrawnGround {
    bool given = false;              ///< the field has its outline from the drawing, or tried
    std::optional<double> area_mm2;  ///< on the panel; none when something was reported
};

/// Reads `drawn: NAME`, `outline: {drawn: NAME}`, `outline: {scan at: POINT}`, `{scan spot: COLOUR}`, or,
/// when the field says neither `drawn` nor `outline`, what is called like the field; puts it into the field's
/// outline and guides.
DrawnGround take_drawn(Section& in, Field& field, const Layout& layout, DrawnSheet& sheet);

/// Reads `{drawn: NAME}` from a list of guides or breaks: appends every line of that name. \return whether
/// the item was of that kind.
bool take_drawn_lines(const YamlValue& item, const std::string& key, std::vector<Stroke>& lines,
                      DrawnSheet& sheet, ProblemList& problems);

/// Warns of guides that lie wholly outside their field: rows near them would be out of sight.
void warn_of_far_guides(Section& in, const Field& field, Layout& layout);

}  // namespace rakelight
