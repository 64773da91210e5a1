#include "output/program/told_layout.h"

#include <fmt/format.h>

#include "output/system/interrupt.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {

void tell_warnings(const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings) fmt::print(stderr, "Warning: {}\n", warning);
}

Layout read_telling(const std::string& file, const std::string& pieces,
                    const std::vector<std::string>& changes) {
    Layout layout = read_layout(file, pieces, changes);
    tell_warnings(layout.warnings);
    return layout;
}

Laying lay_telling(const Layout& layout) {
    Laying laying = lay(layout);
    tell_warnings(laying.warnings);
    stop_if_interrupted();
    return laying;
}

}  // namespace rakelight
