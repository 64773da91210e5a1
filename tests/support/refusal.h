// What reading or laying refuses, in its words.
#pragma once

#include <string>

#include "scene/text/diagnostics.h"

namespace rakelight {

/// All problems of the LayoutError that `work` ends in, one a line; empty when it ends well.
template <class Work>
std::string refusal_of(Work&& work) {
    try {
        work();
    } catch (const LayoutError& error) {
        return error.what();
    }
    return "";
}

}  // namespace rakelight
