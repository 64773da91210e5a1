// The files of output/web, compiled in: the program needs nothing beside itself to make a page.
#pragma once

#include <span>
#include <string_view>

namespace rakelight {

struct WebPart {
    std::string_view name;  ///< of the file, as in "page.css"
    std::string_view text;
};

/// In the order in which scripts have to stand on a page.
std::span<const WebPart> web_parts();

}  // namespace rakelight
