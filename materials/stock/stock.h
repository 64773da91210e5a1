// The built-in stock: glasses, stones, timbers and paints to try a layout with. All of it is invented to be
// plausible, none of it measured; an artist's own stock goes into the layout file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "materials/optics/material.h"

namespace rakelight {

/// Null when there is no such material.
const Material* find_stock(std::string_view name);

/// In the order of the table: glasses, stones, timbers, paints and boards.
std::vector<std::string> stock_names();

}  // namespace rakelight
