// Reading of how a field's pieces are made and set: form, way of setting, lean, dome, fill.
#pragma once

#include "scene/model/field.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `form`, `setting`, `tilt`, `lippage`, `patch`, `lean towards`, `lean by`, `dome` and `fill` of a
/// field. A way of setting gives the usual tilt and lippage, which the field's own keys override.
void read_setting(Section& in, Field& field);

/// Checks that the lamps and viewpoints which fields lean towards are there. Needs all three.
void check_leans(Section& file, const Layout& layout);

}  // namespace rakelight
