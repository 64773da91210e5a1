// Pages as PDF, judged by poppler's pdfinfo, pdftotext and pdftoppm: number, size, words and where things
// lie.
#include "output/paper/pdf_pages.h"

#include <gtest/gtest.h>

#include <cstdio>

#include "tests/support/pixels.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

std::string said(const std::string& command) {
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    char part[512];
    while (pipe && std::fgets(part, sizeof part, pipe)) text += part;
    if (pipe) pclose(pipe);
    return text;
}

std::vector<PdfPage> two_pages() {
    PdfPage first;
    first.page.size_mm = {297, 210};
    first.page.boxes.push_back({{100, 50}, {100, 20}, {0, 0, 1}});
    first.page.texts.push_back({"a proposal", {20, 20}, 5, false, Align::left, {}});
    first.page.lines.push_back({{{20, 150}, {120, 150}}, 1, {1, 0, 0}});
    PdfPage second;
    second.page.size_mm = {210, 297};
    auto red = std::make_shared<Print>(Print{40, 20, {}});
    for (int i = 0; i < 800; ++i) red->rgb.insert(red->rgb.end(), {0.8f, 0.1f, 0.1f});
    second.prints.push_back({red, {30, 40}, {80, 40}});
    return {first, second};
}

// Pixels of a page at 254 dpi, ten a millimetre.
struct Raster : test::Pixels {
    using Pixels::Pixels;
    std::array<int, 3> at_mm(double x, double y) const {
        const auto [r, g, b] = at(10 * x, 10 * y);
        return {r, g, b};
    }
};

Raster rasterised(const test::Folder& folder, int page) {
    const std::string stem = (folder / "page").string(), number = std::to_string(page);
    EXPECT_EQ(std::system(("pdftoppm -r 254 -singlefile -png -f " + number + " -l " + number + " '" +
                           (folder / "a.pdf").string() + "' '" + stem + "'")
                              .c_str()),
              0);
    return Raster(stem + ".png");
}

TEST(PdfPages, PagesHaveTheirSizesAndWords) {
    const test::Folder folder;
    write_pdf(folder / "a.pdf", two_pages(), "Pool", "a maker", "rakelight");
    EXPECT_EQ(folder.entries(), 1u);
    const std::string info = said("pdfinfo -f 1 -l 2 '" + (folder / "a.pdf").string() + "'");
    EXPECT_NE(info.find("Title:           Pool"), std::string::npos) << info;
    EXPECT_NE(info.find("Pages:           2"), std::string::npos) << info;
    // A4 in points of 1/72 inch: 297 / 25.4 * 72 = 841.89, 210 -> 595.28 (ISO 216).
    EXPECT_NE(info.find("841.89 x 595.27"), std::string::npos) << info;
    EXPECT_NE(info.find("595.276 x 841.89"), std::string::npos) << info;
    EXPECT_NE(said("pdftotext '" + (folder / "a.pdf").string() + "' -").find("a proposal"),
              std::string::npos);
}

TEST(PdfPages, ThingsLieWhereTheyWerePut) {
    const test::Folder folder;
    write_pdf(folder / "a.pdf", two_pages(), "", "", "rakelight");
    const Raster first = rasterised(folder, 1);
    EXPECT_NEAR(first.width, 2970, 1);
    const std::array<int, 3> blue{0, 0, 255}, white{255, 255, 255}, red{255, 0, 0};
    EXPECT_EQ(first.at_mm(100.3, 50.3), blue);
    EXPECT_EQ(first.at_mm(199.7, 69.7), blue);
    EXPECT_EQ(first.at_mm(99.7, 60), white);
    EXPECT_EQ(first.at_mm(200.3, 60), white);
    EXPECT_EQ(first.at_mm(70, 150), red);
    int marks = 0;  // between the words and the line there is nothing but the box
    for (double y = 25; y < 145; ++y) marks += first.at_mm(60, y) != white;
    EXPECT_EQ(marks, 0);
    const Raster second = rasterised(folder, 2);
    EXPECT_EQ(second.at_mm(29.5, 60), white);
    EXPECT_EQ(second.at_mm(110.5, 60), white);
    const auto [r, g, b] = second.at_mm(70, 60);  // through JPEG
    EXPECT_NEAR(r, 204, 3);
    EXPECT_NEAR(g, 26, 3);
    EXPECT_NEAR(b, 26, 3);
}

TEST(PdfPages, SamePagesGiveSameBytes) {
    const test::Folder folder;
    write_pdf(folder / "a.pdf", two_pages(), "Pool", "", "rakelight");
    write_pdf(folder / "b.pdf", two_pages(), "Pool", "", "rakelight");
    EXPECT_EQ(test::bytes_of(folder / "a.pdf"), test::bytes_of(folder / "b.pdf"));
    EXPECT_EQ(test::bytes_of(folder / "a.pdf").find("CreationDate"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
