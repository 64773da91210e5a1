// Lamps as a laboratory measured them: files after ANSI/IES LM-63 of 1986, 1991, 1995, 2002 and 2019, read
// whole and strictly. Geometry of the types A, B and C after CIE 121 and IES LM-75: the poles of type A stand
// upright and those of type B lie to the left and right of a lamp whose axis is level. The standards are
// cited from memory.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "scene/light/intensity_grid.h"

namespace rakelight {

/// Larger files are refused unread.
inline constexpr std::size_t kMostPhotometricBytes = 4u << 20;

/// What shines, as the signs of width, length and height say it.
enum class Opening {
    point,
    rectangle,
    box,      ///< a rectangle whose sides shine as well
    ellipse,  ///< flat; a circle when length and width are equal
    cylinder,
    sphere,
    tube_along,   ///< a cylinder that lies along C 0
    tube_across,  ///< a cylinder that lies along C 90
    upright,      ///< a flat ellipse that faces C 0
};

/// What a lamp gives when its luminaire is tilted (TILT=INCLUDE or a file).
struct TiltFactors {
    int geometry = 1;  ///< of lamp to luminaire, 1 to 3; told, not used
    std::vector<double> angle_deg;
    std::vector<double> factor;

    /// Linear between the angles; the nearest end's beyond them; 1 when there are none.
    double at(double tilt_deg) const;
};

struct PhotometricFile {
    int year = 2019;  ///< of the standard
    std::vector<std::pair<std::string, std::string>>
        keywords;  ///< MORE joined to the one before by a newline
    TiltFactors tilt;
    int lamps = 1;
    double lumens_per_lamp = -1;  ///< -1: absolute photometry
    char type = 'C';              ///< A, B or C
    Opening opening = Opening::point;
    double length_mm = 0;  ///< of the opening along C 0, never negative
    double width_mm = 0;   ///< along C 90
    double height_mm = 0;
    double input_watts = 0;
    IntensityGrid intensity;         ///< in candela as used: every factor of the file multiplied in
    double lumens = 0;               ///< of `intensity`
    std::vector<std::string> notes;  ///< harmless, but worth telling
};

/// Reads a file; a TILT file is looked for beside it.
/// \throws LayoutError with everything wrong, each with line and column.
PhotometricFile read_photometric_file(const std::filesystem::path& path);

/// The same from text. `file`: its name in messages, `folder`: where a TILT file would lie.
PhotometricFile read_photometric_text(std::string_view text, const std::string& file,
                                      const std::filesystem::path& folder = {});

}  // namespace rakelight
