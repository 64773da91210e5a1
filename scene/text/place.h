// A place in a text file.
#pragma once

#include <string>

namespace rakelight {

/// Where in the layout file a value was written, for messages that come after reading. Lines count from 1.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

}  // namespace rakelight
