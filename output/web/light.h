// A picture on a page whose lamps can be dimmed: its light as packed layers, and all that a browser needs to
// print their sum as `develop` would.
#pragma once

#include <filesystem>
#include <string>

#include "output/web/embedded_picture.h"

namespace rakelight {

struct WebLight {
    EmbeddedPicture poster;  ///< all lamps full, for browsers that cannot mix and until others have
    std::string scripts;     ///< elements that hold the layers
    std::string name;        ///< id of the element that describes them
};

/// From a film on disk; `name` is unique on the page, letters, digits and '-'. Pictures wider or higher than
/// `most_side_px` are shrunk in linear light. `is_filtered`: as its print was (filter.h); the light of each
/// group then changes as that of all together. \throws RequestError when the film is damaged, none or only
/// part of one.
WebLight web_light(const std::filesystem::path& film, bool glow, bool is_filtered, const std::string& name,
                   int most_side_px);

/// Whether a film on disk is of the scene of this hash (`hash_digits`). \throws RequestError when it is
/// damaged or none.
bool is_film_of(const std::filesystem::path& film, const std::string& scene_hash);

}  // namespace rakelight
