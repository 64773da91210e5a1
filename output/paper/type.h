// Type on sheets: lines of UTF-8 text measured, broken, cut and fitted, and set through Pango (pangocairo) in
// DejaVu Sans, with whatever other fonts the system has for the letters that it lacks. No hinting, no
// rounding and no settings of a desktop: the same text has the same shapes at every size, on every thread.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "output/print/develop.h"

using cairo_t = struct _cairo;  // as cairo.h has it

namespace rakelight {

enum class Align { left, centre, right };

/// One line of type. Figures are all of one width, so that columns of numbers stand in line.
struct PageText {
    std::string text;          ///< UTF-8; what is not is set as question marks, control characters as blanks
    glm::dvec2 baseline_mm{};  ///< where its left end, middle or right end stands
    double size_mm = 2.4;      ///< of the em; capitals are 0.73 of it
    bool bold = false;
    Align align = Align::left;
    EncodedSrgb colour;
};

/// Width of the line, whatever its colour; in proportion to its size.
double width_mm(const PageText& text);

/// Characters for which no font of the system has a glyph: they are set as boxes.
int missing_glyphs(const PageText& text);

/// The text broken into lines no wider than `room_mm`: where Unicode lets a line end (UAX 14), and within a
/// word that alone is wider.
std::vector<std::string> wrapped(const PageText& text, double room_mm);

/// The same line cut with an ellipsis where it would be wider.
PageText cut(PageText text, double room_mm);

/// The same line made to fit: set smaller, down to half its size, then cut with an ellipsis.
PageText fitted(PageText text, double room_mm);

/// Where the line's left end stands on its baseline, however it is aligned.
glm::dvec2 left_end_mm(const PageText& text);

/// Least and greatest corner of what the line covers with ink.
std::pair<glm::dvec2, glm::dvec2> inked_mm(const PageText& text);

/// Shows the line in the context's colour, or adds its outline to the context's path. The context's unit is a
/// millimetre, y down. Pixels are covered by outlines, so that letters stand where they are measured to stand
/// and no setting of a desktop counts; in a PDF words stay words.
void show_text(cairo_t* context, const PageText& text);
void add_outline(cairo_t* context, const PageText& text);

/// Text as Pango and XML take it: sound UTF-8 that ends at the first zero, without control characters.
std::string sound(std::string_view text);

inline constexpr double kOutlineEm = 1000;  ///< size of the em in outlines

/// A glyph as an outline, for drawings that must look the same where the font is missing.
struct SetGlyph {
    glm::dvec2 at_em{};   ///< its origin from the line's left end, in em, y down
    std::string outline;  ///< SVG path data, kOutlineEm to the em, y down
};

/// The glyphs of the line as shaped, without blanks.
std::vector<SetGlyph> glyphs_of(const PageText& text);

/// Type of the sheets of swatches and boards.
namespace sheet {

inline constexpr double kName_mm = 3.4;
inline constexpr double kText_mm = 2.35;
inline constexpr double kCaption_mm = 2.0;
inline constexpr double kLine_mm = 3.7;

PageText plain(std::string text, const glm::dvec2& baseline_mm, Align align = Align::left);
PageText caption(std::string text, const glm::dvec2& baseline_mm, Align align = Align::left);

/// With a true minus, and none before zero.
std::string number(double value, int decimals);

}  // namespace sheet

}  // namespace rakelight
