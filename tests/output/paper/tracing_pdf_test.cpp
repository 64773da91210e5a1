#include "output/paper/tracing_pdf.h"

#include <gtest/gtest.h>

#include "output/paper/sheet_furniture.h"

namespace rakelight {
namespace {

Tracing page(const glm::dvec2& size_mm) {
    Tracing p;
    p.size_mm = size_mm;
    p.layers.push_back(furniture::bar_across({20, 30}));
    return p;
}

// ISO 32000-1: a header, a media box in points of 1/72 in for each page, an end.
TEST(TracingPdf, PagesAreOfTheirOwnSize) {
    const std::vector<Tracing> pages{page({254, 127}), page({127, 254})};
    const std::string pdf = tracings_pdf(pages, "Tide");
    EXPECT_TRUE(pdf.starts_with("%PDF-1."));
    EXPECT_NE(pdf.find("%%EOF"), std::string::npos);
    EXPECT_NE(pdf.find("/MediaBox [ 0 0 720 360 ]"), std::string::npos);
    EXPECT_NE(pdf.find("/MediaBox [ 0 0 360 720 ]"), std::string::npos);
}

TEST(TracingPdf, TellsNoTime) {
    const std::vector<Tracing> pages{page({210, 297})};
    const std::string pdf = tracings_pdf(pages, "Tide");
    EXPECT_EQ(pdf.find("CreationDate"), std::string::npos);
    EXPECT_EQ(pdf.find("ModDate"), std::string::npos);
    EXPECT_EQ(pdf, tracings_pdf(pages, "Tide"));
}

}  // namespace
}  // namespace rakelight
