// How the pages of a dossier look: margins, ink, type. For the files that set them.
#pragma once

#include <string>

#include "output/portfolio/dossier.h"

namespace rakelight {

inline constexpr double kDossierMargin_mm = 22, kDossierTop_mm = 20, kDossierFoot_mm = 198;
inline constexpr double kDossierWidth_mm = kDossierPage_mm.x - 2 * kDossierMargin_mm;
inline const EncodedSrgb kDossierInk{0.13, 0.14, 0.15}, kDossierGrey{0.46, 0.47, 0.48},
    kDossierRule{0.8, 0.8, 0.79};

/// An empty page of the dossier.
PdfPage blank_page();

/// A heading over a page.
void write_heading(Page& page, const std::string& text);

/// Sets a text in lines from `at_mm` down. \return the baseline of the line that would follow.
double write_lines(Page& page, const std::string& text, const glm::dvec2& at_mm, double width_mm,
                   double size_mm, const EncodedSrgb& colour, bool bold = false, double leading = 1.5);

/// A picture as large as the box allows, at its top left corner or in its middle. \return its size.
glm::dvec2 place_picture(PdfPage& page, const std::shared_ptr<const Print>& print, const glm::dvec2& at_mm,
                         const glm::dvec2& box_mm, bool centred = false);

/// What lies under a picture: title, and in grey its note.
void write_under(Page& page, const DossierPicture& picture, const glm::dvec2& at_mm, double width_mm);

/// What a panel is made of, on as many pages as that takes.
std::vector<PdfPage> materials_pages(const DossierPanel& panel);

/// The wall drawn to scale, sizes and weights.
PdfPage sizes_page(const Dossier& dossier);

}  // namespace rakelight
