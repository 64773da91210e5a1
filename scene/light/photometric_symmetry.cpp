#include "scene/light/photometric_symmetry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

#include "scene/text/units.h"

namespace rakelight {

namespace {

constexpr double kSlack_deg = 1e-3;

bool is(double a, double b) {
    return std::abs(a - b) < kSlack_deg;
}

std::string ends(const std::vector<double>& angles) {
    return fmt::format("found angles from {} to {}", number_text(angles.front()), number_text(angles.back()));
}

bool run(const std::vector<double>& angles, std::initializer_list<std::pair<double, double>> allowed) {
    return std::any_of(allowed.begin(), allowed.end(), [&](const auto& ends) {
        return is(angles.front(), ends.first) && is(angles.back(), ends.second);
    });
}

using Columns = std::vector<std::vector<float>>;  // [angle][other angle]

// Appends the image of what is there at `mirror_deg`, the last angle.
void reflect(std::vector<double>& angles, Columns& columns, double mirror_deg) {
    for (std::size_t i = angles.size() - 1; i-- > 0;) {
        angles.push_back(2 * mirror_deg - angles[i]);
        columns.push_back(columns[i]);
    }
}

// 0 to 90 made -90 to 90.
void reflect_at_zero(std::vector<double>& angles, Columns& columns) {
    if (!is(angles.front(), 0)) return;
    const auto count = static_cast<std::ptrdiff_t>(angles.size());
    for (std::ptrdiff_t i = 1; i < count; ++i) {
        angles.insert(angles.begin(), -angles[static_cast<std::size_t>(2 * i - 1)]);
        columns.insert(columns.begin(), columns[static_cast<std::size_t>(2 * i - 1)]);
    }
}

Columns transposed(const Columns& c) {
    Columns t(c.front().size(), std::vector<float>(c.size()));
    for (std::size_t i = 0; i < c.size(); ++i)
        for (std::size_t k = 0; k < c[i].size(); ++k) t[k][i] = c[i][k];
    return t;
}

void all_round(std::vector<double>& angles, Columns& columns) {
    if (angles.size() == 1) return;
    if (is(angles.back(), 90)) reflect(angles, columns, 90);
    if (is(angles.back(), 180)) return reflect(angles, columns, 180);
    if (is(angles.front(), 90)) return reflect(angles, columns, 270);
    if (!is(angles.back(), 360)) {
        angles.push_back(360);
        columns.push_back(columns.front());
    }
}

IntensityGrid grid_of(const std::vector<double>& round, const std::vector<double>& polar, double polar_shift,
                      const Columns& columns) {
    IntensityGrid grid;
    for (const double a : round) grid.round_deg.push_back(static_cast<float>(a));
    for (const double a : polar) grid.polar_deg.push_back(static_cast<float>(a + polar_shift));
    for (const auto& column : columns) grid.candela.insert(grid.candela.end(), column.begin(), column.end());
    return grid;
}

}  // namespace

std::string why_not_vertical(const Measured& m, char type) {
    const auto& v = m.vertical_deg;
    if (type == 'C')
        return run(v, {{0, 90}, {90, 180}, {0, 180}})
                   ? ""
                   : ends(v) + ", expected vertical angles of type C from 0 to 90, 90 to 180 or 0 to 180";
    return run(v, {{-90, 90}, {0, 90}})
               ? ""
               : ends(v) + fmt::format(", expected vertical angles of type {} from -90 or 0 to 90", type);
}

std::string why_not_horizontal(const Measured& m, char type) {
    const auto& h = m.horizontal_deg;
    if (type != 'C')
        return h.size() > 1 && run(h, {{-90, 90}, {0, 90}})
                   ? ""
                   : ends(h) +
                         fmt::format(", expected horizontal angles of type {} from -90 or 0 to 90", type);
    if (h.size() == 1 ? is(h[0], 0) : run(h, {{0, 90}, {0, 180}, {0, 360}, {90, 270}})) return "";
    // A whole turn may leave its last angle out, which is the first again.
    double widest = 0;
    for (std::size_t i = 0; i + 1 < h.size(); ++i) widest = std::max(widest, h[i + 1] - h[i]);
    if (h.size() > 3 && is(h[0], 0) && h.back() > 180 && 360 - h.back() <= widest + kSlack_deg) return "";
    return ends(h) +
           ", expected horizontal angles of type C: 0 alone, or from 0 to 90, 180 or 360, or from 90 to 270";
}

IntensityGrid unfold(const Measured& m, char type) {
    std::vector<double> v = m.vertical_deg, h = m.horizontal_deg;
    Columns columns;
    const auto stride = static_cast<std::ptrdiff_t>(v.size());
    for (std::size_t i = 0; i < h.size(); ++i) {
        const auto first = m.candela.begin() + static_cast<std::ptrdiff_t>(i) * stride;
        columns.emplace_back(first, first + stride);
    }
    if (type == 'C') {
        all_round(h, columns);
        return grid_of(h, v, 0, columns);
    }
    reflect_at_zero(h, columns);
    columns = transposed(columns);  // now by vertical angle
    reflect_at_zero(v, columns);
    // The lamp hangs with its axis as nadir; turned up until that is level, -C 90 is up and -C 0 right.
    const glm::vec3 beam(0, 0, 1), right(-1, 0, 0), up(0, -1, 0);
    IntensityGrid grid = type == 'B' ? grid_of(v, h, 90, columns) : grid_of(h, v, 90, transposed(columns));
    grid.across = glm::transpose(type == 'B' ? glm::mat3(beam, up, -right) : glm::mat3(beam, right, -up));
    return grid;
}

}  // namespace rakelight
