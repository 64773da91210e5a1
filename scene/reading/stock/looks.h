// A material by how it looks, as a layout file writes it: `{like: ruby, looks: "#7a2f3c over white at 3
// mm"}`.
#pragma once

#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `looks`: a colour (six hexadecimal digits of sRGB, or `Lab 45,10,-20` under D65, or a mapping: the
/// mean of a rectangle of a picture), and of translucent stuff what lies behind it (a built-in tint or a
/// share; white when not said) and how thick it is (its own thickness when not said). Changes the curve of
/// `material`, which has all its other keys already, to the nearest that looks so (looks.h). A colour that
/// cannot be had is a problem that names the nearest. A picture is added to `files`. Nothing when the key is
/// absent.
void read_looks(Section& in, Material& material, std::vector<std::string>& files);

}  // namespace rakelight
