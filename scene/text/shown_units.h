// Lengths, areas and masses as an artist wants to read them: in millimetres and kilograms, or with `units:
// inches` in inches and pounds. Inch 25.4 mm and pound 0.45359237 kg are exact: NIST Special Publication 811
// (2008), appendix B.8. Only what is read by people is shown so; JSON and tables for other programs stay
// metric.
#pragma once

#include <initializer_list>
#include <string>

namespace rakelight {

enum class Units { metric, inches };

inline constexpr double kInch_mm = 25.4;
inline constexpr double kPound_kg = 0.45359237;

/// A number of millimetres as "600", or in inches as "23.62": up to six digits, or hundredths of an inch
/// (thousandths under one inch).
std::string shown_number(double mm, Units units);

/// "mm" or "in".
const char* length_unit(Units units);

/// "600 mm" or "23.62 in".
std::string shown_length(double mm, Units units);

/// "600 x 450 mm" or "23.62 x 17.72 in".
std::string shown_size(std::initializer_list<double> mm, Units units);

/// A length where whole millimetres do: "38 mm" or "1.5 in".
std::string shown_rounded(double mm, Units units);

/// To a tenth: "12.5 kg" or "27.6 lb".
std::string shown_mass(double kg, Units units);

}  // namespace rakelight
