// What there is to mix and lay with, without a panel: the built-in stock, tints and pigments, and those that
// a layout file adds.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/reading/stock/stock.h"

namespace rakelight {

struct Supplies {
    std::vector<Pigment> pigments;  ///< built-in, then own
    Shelf stock;
    Shelf tints;
};

/// Built-in ones alone.
Supplies usual_supplies();

/// With those of a layout file; the rest of the file is not looked at. `file_name` stands for it in messages,
/// and names of other files are relative to it. `changes`: see change_tree. \throws LayoutError.
Supplies read_supplies(std::string_view text, std::string file_name,
                       std::span<const std::string> changes = {});

}  // namespace rakelight
