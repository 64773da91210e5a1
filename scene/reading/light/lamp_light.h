// The parts of a lamp that not every lamp has: a photometric file, a spectrum of its own, fittings.
#pragma once

#include <map>
#include <memory>
#include <string>

#include "scene/model/lamp.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Files already read for this layout, by path.
using PhotometricShelf = std::map<std::string, std::shared_ptr<const PhotometricFile>>;

/// `photometry`: the lamp becomes a measured one, with the size that its file says. What is wrong with the
/// file is reported at its own lines; its notes become warnings.
void read_photometry(Section& in, Lamp& lamp, Layout& layout, PhotometricShelf& shelf);

/// `spectrum`: [[nm, power], ...] or the name of a CSV file of such lines beside the layout.
void read_own_spectrum(Section& in, Lamp& lamp, Layout& layout);

/// `barn doors`, `honeycomb`, `snoot`, for a lamp whose form and size are read.
void read_fittings(Section& in, Lamp& lamp);

}  // namespace rakelight
