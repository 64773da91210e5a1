#include "output/program/read_and_warn.h"

#include <fmt/format.h>

#include "output/scan/prepare.h"
#include "output/system/interrupt.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {

void print_warnings(const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings) fmt::print(stderr, "Warning: {}\n", warning);
}

void find_drawing_on_paper(const std::string& file, const std::vector<std::string>& changes) {
    if (const std::string found = prepare_scan(file, changes); !found.empty())
        fmt::print(stderr, "{}\n", found);
}

Layout read_and_warn(const std::string& file, const std::string& pieces,
                     const std::vector<std::string>& changes) {
    find_drawing_on_paper(file, changes);
    Layout layout = read_layout(file, pieces, changes);
    print_warnings(layout.warnings);
    return layout;
}

Laying lay_and_warn(const Layout& layout) {
    Laying laying = lay(layout);
    print_warnings(laying.warnings);
    stop_if_interrupted();
    return laying;
}

}  // namespace rakelight
