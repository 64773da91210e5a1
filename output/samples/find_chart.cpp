#include "output/samples/find_chart.h"

namespace rakelight {

FoundChart find_chart(const std::filesystem::path&) {
    return {
        std::nullopt,
        "found no corners, expected chart: {corners: [[x, y], [x, y], [x, y], [x, y]]}, the outer corners of "
        "dark skin, bluish green, black and white"};
}

}  // namespace rakelight
