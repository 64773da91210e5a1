// How the pages of a proposal look: margins, ink, type. For the files that set them.
#pragma once

#include <string>

#include "output/portfolio/proposal.h"

namespace rakelight {

inline constexpr double kProposalMargin_mm = 22, kProposalTop_mm = 20, kProposalFoot_mm = 198;
inline constexpr double kProposalWidth_mm = kProposalPage_mm.x - 2 * kProposalMargin_mm;
inline const EncodedSrgb kProposalInk{0.13, 0.14, 0.15}, kProposalGrey{0.46, 0.47, 0.48},
    kProposalRule{0.8, 0.8, 0.79};

/// An empty page of the proposal.
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
void write_under(Page& page, const ProposalPicture& picture, const glm::dvec2& at_mm, double width_mm);

/// What a panel is made of, on as many pages as that takes.
std::vector<PdfPage> materials_pages(const ProposalPanel& panel);

/// The wall drawn to scale, sizes and weights.
PdfPage sizes_page(const Proposal& proposal);

}  // namespace rakelight
