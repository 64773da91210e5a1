#include "output/portfolio/proposal.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/portfolio/mounted_print.h"
#include "output/portfolio/proposal_page.h"

namespace rakelight {

namespace {

const ProposalPicture* first_of(const Proposal& d, std::initializer_list<Shot> wanted) {
    for (const Shot shot : wanted)
        for (const ProposalPicture& picture : d.pictures)
            if (picture.shot == shot) return &picture;
    return d.pictures.empty() ? nullptr : &d.pictures.front();
}

std::string title_of(const Proposal& d) {
    return d.portfolio.caption.title.empty() ? d.panels[0].facts.name : d.portfolio.caption.title;
}

std::string in_parts(const Proposal& d) {
    std::size_t parts = 0;
    for (const ProposalPanel& panel : d.panels) parts += std::max<std::size_t>(panel.facts.each.size(), 1);
    return parts == 1   ? ""
           : parts == 2 ? " in two parts"
           : parts == 3 ? " in three parts"
                        : fmt::format(" in {} parts", parts);
}

PdfPage cover(const Proposal& d) {
    PdfPage p = blank_page();
    const Caption& c = d.portfolio.caption;
    constexpr double kPictureTop_mm = 22, kPictureHigh_mm = 122;
    if (const ProposalPicture* picture = first_of(d, {Shot::both, Shot::straight}))
        place_picture(p, picture->print, {kProposalMargin_mm, kPictureTop_mm},
                      {kProposalWidth_mm, kPictureHigh_mm}, true);
    double y = 168;
    p.page.texts.push_back({title_of(d), {kProposalMargin_mm, y}, 11, false, Align::left, kProposalInk});
    const double right = kProposalPage_mm.x - kProposalMargin_mm;
    if (!c.artist.empty())
        p.page.texts.push_back({c.artist, {right, y}, 4.4, false, Align::right, kProposalInk});
    y += 9;
    p.page.texts.push_back({"Proposal for a mosaic panel" + in_parts(d),
                            {kProposalMargin_mm, y},
                            3.8,
                            false,
                            Align::left,
                            kProposalGrey});
    if (!d.date.empty())
        p.page.texts.push_back({d.date, {right, y + 6}, 3.8, false, Align::right, kProposalGrey});
    if (!c.year.empty())
        p.page.texts.push_back({c.year, {right, y}, 3.8, false, Align::right, kProposalGrey});
    y += 6;
    std::string place = c.site;
    if (!c.client.empty()) place += (place.empty() ? "" : ", ") + std::string("for ") + c.client;
    if (!place.empty())
        p.page.texts.push_back({place, {kProposalMargin_mm, y}, 3.8, false, Align::left, kProposalGrey});
    return p;
}

PdfPage caption_page(const Proposal& d) {
    PdfPage p = blank_page();
    constexpr double kColumn_mm = 92, kGap_mm = 12;
    const double column = kProposalPage_mm.x - kProposalMargin_mm - kColumn_mm;
    if (const ProposalPicture* picture = first_of(d, {Shot::straight, Shot::both})) {
        const double wide = column - kGap_mm - kProposalMargin_mm;
        const glm::dvec2 size =
            place_picture(p, picture->print, {kProposalMargin_mm, kProposalTop_mm}, {wide, 150});
        write_under(p.page, *picture, {kProposalMargin_mm, kProposalTop_mm + size.y + 6}, wide);
    }
    double y = kProposalTop_mm + 3;
    for (const auto& [key, text] : caption_lines(d.portfolio.caption, facts_of(d))) {
        p.page.texts.push_back({key, {column, y}, 2.4, false, Align::left, kProposalGrey});
        y = write_lines(p.page, text, {column, y + 4.6}, kColumn_mm, 3.1, kProposalInk) + 2.6;
    }
    if (!d.portfolio.caption.statement.empty())
        write_lines(p.page, d.portfolio.caption.statement, {column, y + 2}, kColumn_mm, 2.8, kProposalInk);
    return p;
}

// A large picture with its words under it.
PdfPage alone(const ProposalPicture& picture) {
    PdfPage p = blank_page();
    constexpr double kHigh_mm = 158;
    const glm::dvec2 size =
        place_picture(p, picture.print, {kProposalMargin_mm, kProposalTop_mm}, {kProposalWidth_mm, kHigh_mm});
    const double y = kProposalTop_mm + 0.35 * (kHigh_mm - size.y);  // a little above the middle
    p.prints.back().at_mm = {(kProposalPage_mm.x - size.x) / 2, y};
    write_under(p.page, picture, {p.prints.back().at_mm.x, y + size.y + 6}, size.x);
    return p;
}

// Several side by side, in rows.
PdfPage together(const std::vector<const ProposalPicture*>& pictures, int across,
                 const std::string& heading) {
    PdfPage p = blank_page();
    write_heading(p.page, heading);
    constexpr double kGap_mm = 8, kWords_mm = 13;
    const int rows = (static_cast<int>(pictures.size()) + across - 1) / across;
    const double wide = (kProposalWidth_mm - (across - 1) * kGap_mm) / across;
    const double top = kProposalTop_mm + 12, room = kProposalFoot_mm - 8 - top,
                 high = room / rows - kWords_mm;
    std::vector<double> row_high(static_cast<std::size_t>(rows), 0);
    double used = 0;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        double& tallest = row_high[i / static_cast<std::size_t>(across)];
        tallest = std::max(tallest, fitted_mm(*pictures[i]->print, {wide, high}).y);
    }
    for (const double h : row_high) used += h + kWords_mm;
    double y = top + 0.35 * std::max(0.0, room - used);  // a little above the middle
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        const auto column = static_cast<double>(i % static_cast<std::size_t>(across));
        if (i > 0 && column == 0) y += row_high[i / static_cast<std::size_t>(across) - 1] + kWords_mm;
        const glm::dvec2 at(kProposalMargin_mm + column * (wide + kGap_mm), y);
        const glm::dvec2 size = place_picture(p, pictures[i]->print, at, {wide, high});
        write_under(p.page, *pictures[i], at + glm::dvec2(0, size.y + 5), wide);
    }
    return p;
}

std::vector<const ProposalPicture*> all_of(const Proposal& d, std::initializer_list<Shot> shots) {
    std::vector<const ProposalPicture*> found;
    for (const Shot shot : shots)
        for (const ProposalPicture& picture : d.pictures)
            if (picture.shot == shot) found.push_back(&picture);
    return found;
}

void add_pictures(std::vector<PdfPage>& pages, const Proposal& d) {
    const auto group = [&](std::initializer_list<Shot> shots, int across, const std::string& heading) {
        const auto found = all_of(d, shots);
        if (found.size() == 1)
            pages.push_back(alone(*found[0]));
        else if (!found.empty())
            pages.push_back(together(found, std::min<int>(across, static_cast<int>(found.size())), heading));
    };
    group({Shot::both}, 1, "");
    group({Shot::in_place}, 1, "");
    group({Shot::sparkle, Shot::raking}, 2, "Sparkle and relief");
    group({Shot::three_quarter}, 1, "");
    group({Shot::details, Shot::edge}, 2, "From near");
    group({Shot::day, Shot::dusk}, 2, "The same wall by day and at dusk");
    group({Shot::walk_past}, 4, "Walking past");
}

}  // namespace

std::vector<PanelFacts> facts_of(const Proposal& proposal) {
    std::vector<PanelFacts> facts;
    for (const ProposalPanel& panel : proposal.panels) facts.push_back(panel.facts);
    return facts;
}

std::vector<PdfPage> proposal_pages(const Proposal& proposal) {
    std::vector<PdfPage> pages{cover(proposal), caption_page(proposal)};
    const auto first = pages.size();
    for (const ProposalPicture& picture : proposal.in_photographs) pages.push_back(alone(picture));
    const auto end = pages.size();
    add_pictures(pages, proposal);
    for (const ProposalPanel& panel : proposal.panels)
        for (PdfPage& page : materials_pages(panel)) pages.push_back(std::move(page));
    pages.push_back(sizes_page(proposal));
    for (std::size_t i = 0; i < pages.size(); ++i) {
        Page& page = pages[i].page;
        if (i > 0)
            page.texts.push_back({fmt::format("{}", i + 1),
                                  {kProposalPage_mm.x - kProposalMargin_mm, kProposalFoot_mm},
                                  2.4,
                                  false,
                                  Align::right,
                                  kProposalGrey});
        const bool photograph = i >= first && i < end;
        const std::string honest = photograph                    ? kSetIntoAPhotograph
                                   : pages[i].prints.empty()     ? "Drawn by " + proposal.program
                                   : pages[i].prints.size() == 1 ? kNotAPhotograph
                                                                 : "Renderings, not photographs";
        const std::string date = proposal.date.empty() ? "" : proposal.date + "   ·   ";
        page.texts.push_back({i == 0 ? honest : title_of(proposal) + "   ·   " + date + honest,
                              {kProposalMargin_mm, kProposalFoot_mm},
                              2.4,
                              false,
                              Align::left,
                              kProposalGrey});
    }
    return pages;
}

}  // namespace rakelight
