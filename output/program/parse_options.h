// Parsing of options: words of the command line made into values.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "renderer/film.h"
#include "scene/model/views.h"

namespace rakelight {

struct Layout;

/// Words of a list that an option takes. \throws RequestError naming the nearest when one is not known.
void check_words(std::string_view option, std::span<const std::string> words,
                 const std::vector<std::string>& known);

/// "2%", "2 %" or "0.02" -> 0.02. \throws RequestError unless above 0 and below 1.
double parse_grain(std::string_view text);

/// "1200x900" -> {1200, 900}. \throws RequestError unless both are 16..16384.
glm::ivec2 parse_size(std::string_view text);

/// "600x400" -> {600, 400} in mm. \throws RequestError unless both are 16..16384.
glm::ivec2 parse_slab(std::string_view text);

/// "1-450" -> rows {0, 450}: counted from 1 at the top, both ends included. \throws RequestError outside the
/// picture.
RowRange parse_rows(std::string_view text, int height_px);

/// The option of `preview` that takes such a band.
inline constexpr const char* kPartOption = "--part";

/// "2/4" -> the second of four bands of rows of nearly equal height, none empty. \throws RequestError when
/// there is no such band.
struct Part {
    int which = 1;  ///< from 1
    int of = 1;
};
Part parse_part(std::string_view text);
RowRange rows_of_part(const Part& part, int height_px);

/// The pictures called so, in the order asked for, none twice; all of the layout when `names` is empty.
/// \throws RequestError naming the nearest picture when one is unknown, or when two would share a file name.
std::vector<Picture> choose_pictures(const Layout& layout, std::span<const std::string> names);

}  // namespace rakelight
