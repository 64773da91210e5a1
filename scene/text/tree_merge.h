// One layout that changes another: two YAML trees made into one before it is read, every value keeping the
// place where it was written.
#pragma once

#include "scene/text/yaml_document.h"

namespace rakelight {

/// `base` as `over` changes it; both are roots of layout files.
/// - A section (panel, room, stock ..) is changed key by key; what stands under such a key is taken whole.
/// - A list of which every item has a `name`, in both (fields, lamps, pictures, viewpoints, room.windows ..),
/// is
///   changed item by item: one called alike is changed key by key, a new one goes to the end. Any other list
///   (stones, guides ..) is taken whole.
/// - A key without a value removes that of the base, after RFC 7396 (JSON Merge Patch), so that a key can
/// make
///   room for another that excludes it.
YamlValue merged(YamlValue base, const YamlValue& over);

}  // namespace rakelight
