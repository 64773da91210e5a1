#include "output/portfolio/proposal_page.h"

namespace rakelight {

PdfPage blank_page() {
    PdfPage page;
    page.page.size_mm = kProposalPage_mm;
    return page;
}

void write_heading(Page& page, const std::string& text) {
    page.texts.push_back(
        {text, {kProposalMargin_mm, kProposalTop_mm + 4}, 5.2, false, Align::left, kProposalInk});
}

double write_lines(Page& page, const std::string& text, const glm::dvec2& at_mm, double wide_mm,
                   double size_mm, const EncodedSrgb& colour, bool bold, double leading) {
    double y = at_mm.y;
    for (const std::string& line : wrapped(PageText{text, {}, size_mm, bold}, wide_mm)) {
        page.texts.push_back({line, {at_mm.x, y}, size_mm, bold, Align::left, colour});
        y += leading * size_mm;
    }
    return y;
}

glm::dvec2 place_picture(PdfPage& page, const std::shared_ptr<const Print>& print, const glm::dvec2& at_mm,
                         const glm::dvec2& box_mm, bool centred) {
    const glm::dvec2 size = fitted_mm(*print, box_mm);
    page.prints.push_back({print, centred ? at_mm + (box_mm - size) / 2.0 : at_mm, size});
    return size;
}

void write_under(Page& page, const ProposalPicture& picture, const glm::dvec2& at_mm, double wide_mm) {
    page.texts.push_back({picture.title, at_mm, 2.9, true, Align::left, kProposalInk});
    write_lines(page, picture.note, at_mm + glm::dvec2(0, 4.4), wide_mm, 2.6, kProposalGrey);
}

}  // namespace rakelight
