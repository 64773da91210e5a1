// What a layout file says of its portfolio, what it leaves unsaid, and what it gets wrong.
#include "output/portfolio/section.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

using namespace rakelight;

namespace {

constexpr const char* kPanel =
    "panel: {name: Pool, size: [600, 400]}\n"
    "fields: [{name: all, piece: 60, mix: slate}]\n"
    "room: {size: [5000, 5000, 2800]}\n";

Portfolio read(const std::string& section) {
    const std::string text = kPanel + section;
    const Layout layout = read_layout_text(text, "pool.yaml");
    return read_portfolio(layout);
}

std::string problems(const std::string& section) {
    return refusal_of([&] { read(section); });
}

}  // namespace

TEST(ReadPortfolio, SaysNothingAndGetsTheUsualSet) {
    const Portfolio p = read("");
    EXPECT_EQ(p.show.size(), kShotWords.size() - 1);  // no panel beside
    EXPECT_EQ(std::count(p.show.begin(), p.show.end(), Shot::both), 0);
    EXPECT_EQ(p.caption.title, "Pool");
    EXPECT_EQ(p.dpi, 300);
    ASSERT_EQ(p.scale_figures.size(), 1u);
    EXPECT_EQ(p.scale_figures[0].what, StandIn::figure);
    EXPECT_FALSE(p.details.empty());
    for (const CloseUp& c : p.details) {
        EXPECT_GE(c.at_mm.x, c.width_mm / 2);
        EXPECT_LE(c.at_mm.x, 600 - c.width_mm / 2);
    }
    EXPECT_EQ(p.light.at(Shot::dusk), "dusk");
}

TEST(ReadPortfolio, PrintsAtPublishedPaperSizes) {
    // ISO 216 A4, 210 x 297 mm, at 300 dots an inch of 25.4 mm: 2480 x 3508.
    EXPECT_EQ(print_px(210, 300), 2480);
    EXPECT_EQ(print_px(297, 300), 3508);
    EXPECT_EQ(print_px(254, 300), 3000);
    EXPECT_EQ(print_px(25.4, 72), 72);
}

TEST(ReadPortfolio, TakesWhatIsSaid) {
    const Portfolio p = read(
        "portfolio:\n"
        "  show: [straight, details, in place]\n"
        "  print: 10 in\n"
        "  dpi: 150\n"
        "  light: {straight: pair at 45}\n"
        "  details: [{at: [100, 80], width: 12 cm}]\n"
        "  lens: {focal length: 100, f-number: 11}\n"
        "  scale figures: [{what: bench, at: [0, 2000]}, {what: figure, at: [900, 1200], turn: 40, height: "
        "1600}]\n"
        "  walk past: {steps: 5, from: -600, to: 600}\n"
        "  caption: {title: The pool, price: 4800, edition: unique}\n");
    EXPECT_EQ(p.show, (std::vector{Shot::straight, Shot::details, Shot::in_place}));
    EXPECT_DOUBLE_EQ(p.print_mm, 254);
    EXPECT_EQ(p.dpi, 150);
    EXPECT_EQ(p.light.at(Shot::straight), "pair at 45");
    ASSERT_EQ(p.details.size(), 1u);
    EXPECT_DOUBLE_EQ(p.details[0].width_mm, 120);
    EXPECT_EQ(p.lens.f_number, 11);
    ASSERT_EQ(p.scale_figures.size(), 2u);
    EXPECT_EQ(p.scale_figures[1].height_mm, 1600);
    EXPECT_EQ(p.walk.steps, 5);
    EXPECT_EQ(p.caption.price, "4800");
}

TEST(ReadPortfolio, ReportsEverythingAtOnceWithItsPlace) {
    const std::string text = problems(
        "portfolio:\n"
        "  show: [straight, sparkel, straight, both]\n"
        "  print: 3 m\n"
        "  dpi: 5000\n"
        "  light: {dusk: dawn, dsuk: dusk}\n"
        "  details: [{at: [900, 80]}, {width: 10}]\n"
        "  lens: {f-number: 0.5, zoom: 3}\n"
        "  scale figures: [{what: stool, at: [0, 2000]}, {what: figure, at: [4000, 1200]}]\n"
        "  walk past: {steps: 1}\n"
        "  caption: {titel: The pool}\n");
    for (const char* part : {"pool.yaml:5:20: portfolio.show: found \"sparkel\", expected one of straight",
                             "did you mean sparkle?",
                             "found \"straight\" again, expected each picture once",
                             "found \"both\" without a panel beside",
                             "portfolio.print: found",
                             "portfolio.dpi: found",
                             "portfolio.light.dusk: found \"dawn\", expected one of own light",
                             "portfolio.light.dsuk",
                             "did you mean dusk?",
                             "expected a point of the panel, [0, 0] to [600, 400] mm",
                             "portfolio.details[2].at: found nothing",
                             "portfolio.details[2].width",
                             "portfolio.lens.f-number",
                             "portfolio.lens.zoom",
                             "portfolio.scale figures[1].what: found \"stool\"",
                             "portfolio.scale figures[2].at",
                             "outside the room",
                             "portfolio.walk past.steps",
                             "portfolio.caption.titel",
                             "did you mean title?"})
        EXPECT_NE(text.find(part), std::string::npos) << part << "\nnot in\n" << text;
    EXPECT_NE(problems("portfolio: [straight]\n").find("portfolio: found"), std::string::npos);
}

TEST(ReadPortfolio, SaysWhatCannotBeShown) {
    const Layout layout = read_layout_text(kPanel, "pool.yaml");
    Portfolio p = usual_portfolio(layout);
    EXPECT_EQ(why_no_shot(Shot::dusk, p, layout), "");
    EXPECT_EQ(why_no_shot(Shot::straight, p, layout), "");
    EXPECT_NE(why_no_shot(Shot::both, p, layout).find("without a panel beside"), std::string::npos);
    p.light.erase(Shot::dusk);  // as where it does not fit: own light must not pass for dusk
    EXPECT_NE(why_no_shot(Shot::dusk, p, layout).find("the set-up dusk does not fit"), std::string::npos);
}

TEST(ReadPortfolio, RefusesAPrintOfTooManyPixels) {
    EXPECT_NE(problems("portfolio: {print: 1200, dpi: 600}\n")
                  .find("which is 28346 pixels, expected at most 16384"),
              std::string::npos);  // 1200 / 25.4 * 600
}
