// Two pictures over each other, with a line to drag across them or in turn (browser/compare.js): any two
// cells of a board, or photograph and picture of a comparison.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/web/embedded_picture.h"

namespace rakelight {

struct WebCell {
    std::string label;
    std::string rank;     ///< empty where the board has no aim
    std::string numbers;  ///< lines for the label under the picture
    std::string picture;  ///< an `img`
    int row = 0;
    int column = 0;
    double white_cd_per_m2 = 0;  ///< what prints as white; 0 = not known
};

/// A picture in its `img`; `alt` is escaped here. \throws RequestError when it cannot be read.
std::string cell_image(const std::filesystem::path& file, const PictureLimits& limits,
                       const std::string& alt);

/// A cell to choose.
std::string cell_button(const WebCell& cell, const std::string& words);

/// The bench on which two of the cells lie, `left` and `right` at first; it is shown once a script wakes it.
std::string laid_over(const std::vector<WebCell>& cells, std::size_t left, std::size_t right);

/// Photograph and picture as a figure of their own.
std::string web_pair(const std::filesystem::path& photograph, const std::filesystem::path& picture,
                     const std::string& title, const std::string& id, const PictureLimits& limits);

}  // namespace rakelight
