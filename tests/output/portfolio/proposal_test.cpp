// Sheets of a proposal: nothing printed over anything else, everything on its page, whatever a work is made
// of.
#include "output/portfolio/proposal.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "output/paper/type.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

// Stripes, each of a glass and a grout of its own.
std::string striped(int glasses, int zones) {
    std::string stock = "stock:\n", fields = "fields:\n";
    for (int i = 0; i < glasses; ++i) {
        stock += fmt::format("  glass-of-the-{}th-stripe: {{like: celadon}}\n", i + 1);
        fields += fmt::format(
            "  - {{name: stripe {0}, outline: [[{1}, 0], [{2}, 0], [{2}, 300], [{1}, 300]], "
            "piece: 20, mix: glass-of-the-{0}th-stripe, zone: stripe {3}}}\n",
            i + 1, 30 * i, 30 * (i + 1), i % zones + 1);
    }
    return fmt::format("panel: {{size: [{}, 300], frame: {{material: oak, width: 20, gap: 5}}}}\n",
                       30 * glasses) +
           stock + fields;
}

ProposalPanel panel_of(const Layout& layout) {
    const Laying laying = lay(layout);
    return {&layout, panel_facts(layout, laying, {}), report_laying(layout, laying, "p", 0)};
}

Proposal proposal_of(const Layout& layout) {
    Proposal proposal;
    proposal.portfolio = usual_portfolio(layout);
    proposal.program = "p";
    proposal.date = "27 November 2026";
    proposal.panels.push_back(panel_of(layout));
    if (layout.beside) proposal.panels.push_back(panel_of(*layout.beside->layout));
    return proposal;
}

void expect_apart(const Page& page, std::size_t number) {
    std::vector<std::pair<glm::dvec2, glm::dvec2>> inked;
    for (const PageText& text : page.texts) inked.push_back(inked_mm(text));
    for (std::size_t i = 0; i < inked.size(); ++i) {
        EXPECT_GE(inked[i].first.x, 0) << page.texts[i].text;
        EXPECT_LE(inked[i].second.x, page.size_mm.x) << page.texts[i].text;
        EXPECT_LE(inked[i].second.y, page.size_mm.y) << page.texts[i].text;
        for (std::size_t j = 0; j < i; ++j) {
            const glm::dvec2 low = glm::max(inked[i].first, inked[j].first),
                             high = glm::min(inked[i].second, inked[j].second);
            EXPECT_FALSE(low.x < high.x && low.y < high.y)
                << "page " << number << ": " << page.texts[i].text << " over " << page.texts[j].text;
        }
    }
}

bool says(const std::vector<PdfPage>& pages, const std::string& part) {
    for (const PdfPage& page : pages)
        for (const PageText& text : page.page.texts)
            if (text.text.find(part) != std::string::npos) return true;
    return false;
}

}  // namespace

TEST(Proposal, NothingIsPrintedOverAnythingElse) {
    for (const auto& [glasses, zones] : {std::pair(4, 2), {25, 3}, {50, 12}}) {
        const test::Folder folder;
        folder.write("other.yaml", striped(3, 1));
        const Layout layout = read_layout(
            folder.write("work.yaml", striped(glasses, zones) + "beside: {layout: other.yaml, gap: 60}\n"));
        const std::vector<PdfPage> pages = proposal_pages(proposal_of(layout));
        for (std::size_t i = 0; i < pages.size(); ++i) expect_apart(pages[i].page, i + 1);
        for (int i = 1; i <= glasses; ++i)
            EXPECT_TRUE(says(pages, fmt::format("glass of the {}th stripe", i))) << i;
        for (int i = 1; i <= zones; ++i) EXPECT_TRUE(says(pages, fmt::format("Grout: stripe {}", i))) << i;
    }
}

TEST(Proposal, SaysItsDateAndHowFarPanelsHangApart) {
    const test::Folder folder;
    folder.write("other.yaml", striped(3, 1));
    const Layout layout =
        read_layout(folder.write("work.yaml", striped(4, 2) + "beside: {layout: other.yaml, gap: 60}\n"));
    const std::vector<PdfPage> pages = proposal_pages(proposal_of(layout));
    EXPECT_TRUE(says({pages.front()}, "27 November 2026"));
    EXPECT_TRUE(says({pages.back()}, "6.0 cm apart"));
}

}  // namespace rakelight
