// A proposal on paper: cover, pictures, materials, sizes and weight, A4 lying, to be sent to whoever
// commissions a work. Pages are plain values; pdf_pages.h writes them.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "output/lay/report.h"
#include "output/paper/pdf_pages.h"
#include "output/portfolio/caption.h"
#include "output/portfolio/portfolio.h"

namespace rakelight {

struct Layout;

/// A finished picture.
struct ProposalPicture {
    Shot shot = Shot::straight;
    std::string title;
    std::string note;
    std::shared_ptr<const Print> print;
};

/// A panel of the proposal: the layout's own, then the one beside it.
struct ProposalPanel {
    const Layout* layout = nullptr;
    PanelFacts facts;
    LayingReport laid;
};

struct Proposal {
    Portfolio portfolio;
    std::vector<ProposalPicture> pictures;
    std::vector<ProposalPicture> in_photographs;  ///< of the wall; their shot says nothing
    std::vector<ProposalPanel> panels;            ///< at least one
    std::string program;
    std::string date;  ///< of the proposal, as it is to be read; empty = none
};

/// Facts of its panels, in their order.
std::vector<PanelFacts> facts_of(const Proposal& proposal);

inline constexpr glm::dvec2 kProposalPage_mm{297, 210};

/// Cover, caption, pictures (large ones alone, small ones together), materials of each panel, sizes and
/// weight.
std::vector<PdfPage> proposal_pages(const Proposal& proposal);

}  // namespace rakelight
