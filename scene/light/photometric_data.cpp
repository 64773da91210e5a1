#include "scene/light/photometric_data.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/light/photometric_symmetry.h"

namespace rakelight {

namespace {

constexpr Range kCount{1, 1000};
constexpr double kMmPerFoot = 304.8, kMmPerMetre = 1000;

// Where the file's numbers stand, to point back at.
struct Opened {
    double width, length, height;
    std::size_t at;
};

// By the signs: table 1 of the 2002 and 2019 standards; the older ones write a round opening with one
// negative number and zeros, and an ellipse with one negative side.
Opening opening_of(const Opened& o, bool older) {
    const auto sign = [](double x) { return x < 0 ? '-' : x > 0 ? '+' : '0'; };
    const std::string signs{sign(o.width), sign(o.length), sign(o.height)};
    if (signs == "000") return Opening::point;
    if (signs.find('-') == signs.npos) return signs[2] == '0' ? Opening::rectangle : Opening::box;
    if (signs == "--0" || signs == "-00") return Opening::ellipse;
    if (signs == "--+" || signs == "-0+") return Opening::cylinder;
    if (signs == "---") return Opening::sphere;
    if (signs == "-0-") return older ? Opening::sphere : Opening::upright;
    if (signs == "-+-" || (signs == "0+-" && older)) return Opening::tube_along;
    if (signs == "+--" || (signs == "+0-" && older)) return Opening::tube_across;
    if (older && (signs == "-+0" || signs == "+-0")) return Opening::ellipse;
    if (older && (signs == "-++" || signs == "+-+")) return Opening::sphere;
    return Opening::point;
}

void set_opening(PhotometricNumbers& numbers, const Opened& o, double mm_per_unit, PhotometricFile& file) {
    const bool older = file.year < 2002;
    file.opening = opening_of(o, older);
    if (file.opening == Opening::point && (o.width != 0 || o.length != 0 || o.height != 0))
        numbers.problem(o.at,
                        fmt::format("found an opening of {} x {} x {}, expected signs that mean a shape",
                                    number_text(o.width), number_text(o.length), number_text(o.height)));
    constexpr double kLine_mm = 1;  // a side of nothing: something very thin
    const auto size = [&](double value, double instead_mm) {
        return value != 0 ? std::abs(value) * mm_per_unit : instead_mm;
    };
    const double width = size(o.width, kLine_mm), length = size(o.length, kLine_mm);
    const bool flat = file.opening == Opening::rectangle || file.opening == Opening::ellipse;
    switch (file.opening) {
        case Opening::point:
            return;
        case Opening::rectangle:
        case Opening::box:
            file.width_mm = width;
            file.length_mm = length;
            break;
        case Opening::ellipse:
        case Opening::cylinder:
        case Opening::sphere:
            file.width_mm = width;
            file.length_mm = size(o.length, width);
            break;
        case Opening::upright:
            file.width_mm = width;
            file.length_mm = 0;
            break;
        case Opening::tube_along:
            file.length_mm = length;
            file.width_mm = size(o.width, size(o.height, kLine_mm));
            break;
        case Opening::tube_across:
            file.width_mm = width;
            file.length_mm = size(o.length, size(o.height, kLine_mm));
            break;
    }
    file.height_mm = flat ? 0 : size(o.height, file.opening == Opening::sphere ? width : kLine_mm);
    const bool uneven = (file.opening == Opening::sphere &&
                         (file.length_mm != file.width_mm || file.height_mm != file.width_mm)) ||
                        (file.opening == Opening::cylinder && file.length_mm != file.width_mm) ||
                        (file.opening == Opening::tube_along && file.width_mm != file.height_mm) ||
                        (file.opening == Opening::tube_across && file.length_mm != file.height_mm);
    if (uneven)
        file.notes.emplace_back("a luminous body of elliptic section is shown round, with its mean diameter");
}

std::vector<double> rising(PhotometricNumbers& numbers, int count, const std::string& what, Range range) {
    std::vector<double> angles;
    for (int i = 0; i < count; ++i) {
        const double angle = numbers.take(fmt::format("{} {} of {}", what, i + 1, count), range);
        if (!angles.empty() && angle <= angles.back())
            numbers.problem_with_last(fmt::format("found {} after {}, expected {}s that rise",
                                                  number_text(angle), number_text(angles.back()), what));
        angles.push_back(angle);
    }
    return angles;
}

}  // namespace

void read_tilt(PhotometricNumbers& numbers, TiltFactors& tilt, ProblemList& problems) {
    const double geometry = numbers.take("the geometry of lamp to luminaire", {1, 3}, true);
    const double pairs = numbers.take("the count of tilt angles", kCount, true);
    problems.throw_if_any();
    tilt.geometry = static_cast<int>(geometry);
    const int count = static_cast<int>(pairs);
    tilt.angle_deg = rising(numbers, count, "tilt angle", {0, 180});
    for (int i = 0; i < count; ++i)
        tilt.factor.push_back(numbers.take(fmt::format("tilt factor {} of {}", i + 1, count), {0, 10}));
    problems.throw_if_any();
}

void read_photometric_data(PhotometricNumbers& numbers, PhotometricFile& file, ProblemList& problems) {
    constexpr Range kFactor{1e-6, 1e6}, kSize{-1000, 1000};
    const double lamps = numbers.take("the count of lamps", kCount, true);
    file.lumens_per_lamp = numbers.take("the lumens of a lamp, or -1");
    if (file.lumens_per_lamp != -1 && !(file.lumens_per_lamp > 0 && file.lumens_per_lamp <= 1e8) &&
        !std::isnan(file.lumens_per_lamp))
        numbers.problem_with_last(fmt::format("found {}, expected the lumens of a lamp, above 0, or -1",
                                              number_text(file.lumens_per_lamp)));
    const double multiplier = numbers.take("the multiplier of candela", kFactor);
    const double verticals = numbers.take("the count of vertical angles", {2, kCount.high}, true);
    const double horizontals = numbers.take("the count of horizontal angles", kCount, true);
    const double type = numbers.take("the type of photometry, 1 (C), 2 (B) or 3 (A)", {1, 3}, true);
    const double unit = numbers.take("the unit, 1 (feet) or 2 (metres)", {1, 2}, true);
    Opened opened{};
    opened.at = numbers.taken();
    opened.width = numbers.take("the width of the opening", kSize);
    opened.length = numbers.take("the length of the opening", kSize);
    opened.height = numbers.take("the height of the opening", kSize);
    const double ballast = numbers.take("the ballast factor", kFactor);
    const double second = numbers.take(file.year < 2002    ? "the ballast-lamp factor"
                                       : file.year == 2002 ? "a number kept for later use, 1"
                                                           : "the type of file generation",
                                       kFactor);
    file.input_watts = numbers.take("the input watts", {0, 1e6});
    problems.throw_if_any();

    file.lamps = static_cast<int>(lamps);
    set_opening(numbers, opened, unit == 1 ? kMmPerFoot : kMmPerMetre, file);
    file.type = type == 1 ? 'C' : type == 2 ? 'B' : 'A';
    if (file.year == 2002 && second != 1)
        file.notes.push_back(
            fmt::format("the number after the ballast factor is {}; it is left out, as this standard has it",
                        number_text(second)));
    const double factor = multiplier * ballast * (file.year < 2002 ? second : 1);

    const std::size_t first_vertical = numbers.taken();
    Measured m;
    m.vertical_deg = rising(numbers, static_cast<int>(verticals), "vertical angle", {-90, 180});
    const std::size_t first_horizontal = numbers.taken();
    m.horizontal_deg = rising(numbers, static_cast<int>(horizontals), "horizontal angle", {-90, 360});
    problems.throw_if_any();
    if (const std::string text = why_not_vertical(m, file.type); !text.empty())
        numbers.problem(first_vertical, text);
    if (const std::string text = why_not_horizontal(m, file.type); !text.empty())
        numbers.problem(first_horizontal, text);

    const std::size_t count = m.vertical_deg.size() * m.horizontal_deg.size();
    double greatest = 0;
    for (std::size_t i = 0; i < count && numbers.left() > 0; ++i) {
        const double candela = numbers.take("candela", {0, 1e9});
        m.candela.push_back(static_cast<float>(candela * factor));
        greatest = std::max(greatest, candela);
    }
    if (m.candela.size() < count)
        numbers.take(
            fmt::format("{} candela values, {} verticals for each of {} horizontals, and there are {}", count,
                        m.vertical_deg.size(), m.horizontal_deg.size(), m.candela.size()));
    else if (greatest <= 0)
        numbers.problem_with_last("found no candela above 0, expected a lamp that gives light");
    numbers.finish("the end of the file");
    problems.throw_if_any();
    file.intensity = unfold(m, file.type);
    file.lumens = lumens(file.intensity);
}

}  // namespace rakelight
