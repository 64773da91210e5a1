// Numbers with a unit, as an artist writes them: "24 in", "65 lb", "1550 F", "70 %", "0.5 rad".
// Factors are the exact ones of NIST Special Publication 811 (2008), appendix B: inch 25.4 mm, foot 304.8 mm,
// pound 453.59237 g, ounce a sixteenth of it, t/C = (t/F - 32)/1.8, T/K = t/C + 273.15.
#pragma once

#include <string>
#include <string_view>

namespace rakelight {

/// What a number measures, and the unit it is kept in, which is also the unit of a bare number.
enum class Quantity {
    plain,           ///< no unit allowed
    share,           ///< a fraction; "%" allowed
    length_mm,       ///< mm, cm, m, in, ft
    mass_g,          ///< g, kg, oz, lb
    temperature_k,   ///< K, C, F: colour temperature
    temperature_c,   ///< C, K, F: kiln and room temperature
    angle_deg,       ///< deg, rad
    flux_lm,         ///< lm
    intensity_cd,    ///< cd
    illuminance_lx,  ///< lx
};

/// A number read from text, or why it could not be: then `problem` holds "found X, expected Y[; did you mean
/// Z?]" and the value is 0.
struct Measure {
    double value = 0;
    std::string problem;
    bool ok() const { return problem.empty(); }
};

/// Reads a decimal number (a point for decimals, no thousands separators) or a fraction ("3/8", "1 3/8"),
/// then optionally a unit with or without a space. Refuses what is not finite, unknown units and units of
/// another quantity.
Measure read_measure(std::string_view text, Quantity quantity);

/// "a length (mm, cm, m, in, ft)": what to expect, for messages.
std::string describe(Quantity quantity);

/// The kept unit with a leading space, " mm"; empty for plain numbers and shares.
std::string_view unit_suffix(Quantity quantity);

/// What `read_measure` takes, as a regular expression (ECMA-262) of the whole text.
std::string measure_pattern(Quantity quantity);

/// The text cut to 40 bytes, with control characters replaced: safe to print.
std::string printable(std::string_view text);

/// The same in quotes.
std::string quoted(std::string_view text);

/// The number with up to ten digits, so that 24 in prints as 609.6 mm.
std::string number_text(double value);

}  // namespace rakelight
