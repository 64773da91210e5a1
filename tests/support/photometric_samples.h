// Photometric files written from the standard, for several tests.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <vector>

namespace rakelight {

/// Angles from `first` to `last`, both included.
inline std::vector<double> angles(double first, double last, double step) {
    std::vector<double> r;
    for (int i = 0; first + i * step <= last + 1e-9; ++i) r.push_back(first + i * step);
    return r;
}

struct FileMaker {
    std::string version = "IES:LM-63-2019";
    std::string tilt = "TILT=NONE";
    double lumens_per_lamp = -1;
    double multiplier = 1;
    int type = 1;  ///< 1 = C, 2 = B, 3 = A
    int unit = 2;  ///< 1 = feet, 2 = metres
    std::string opening = "0 0 0";
    std::string factors = "1 1 10";
    std::vector<double> vertical, horizontal;

    /// The file with the candela of `at(vertical, horizontal)`, in degrees.
    std::string text(const std::function<double(double, double)>& at) const {
        std::string r = version.empty() ? "" : version + "\n[TEST] 1\n[MANUFAC] none\n[LUMINAIRE] made up\n";
        r += fmt::format("{}\n1 {} {} {} {} {} {} {}\n{}\n", tilt, lumens_per_lamp, multiplier,
                         vertical.size(), horizontal.size(), type, unit, opening, factors);
        for (const auto* list : {&vertical, &horizontal}) {
            for (const double a : *list) r += fmt::format("{} ", a);
            r += '\n';
        }
        for (const double h : horizontal) {
            for (const double v : vertical) r += fmt::format("{:.7g} ", at(v, h));
            r += '\n';
        }
        return r;
    }
};

inline double cos_deg(double deg) {
    return std::cos(deg * std::numbers::pi / 180);
}
inline double sin_deg(double deg) {
    return std::sin(deg * std::numbers::pi / 180);
}

}  // namespace rakelight
