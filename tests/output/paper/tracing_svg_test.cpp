// Drawings as SVG, judged by the reader of artists' drawings and by an XML parser.
#include <gtest/gtest.h>

#include <pugixml.hpp>
#include <set>

#include "output/paper/tracing.h"
#include "scene/drawing/svg/reader.h"

namespace rakelight {
namespace {

constexpr const char* kHostile = "Tide & <foam> \"]]>'\x01\xff\u0398\u03ac";
constexpr const char* kAsRead = "Tide & <foam> \"]]>' ?\u0398\u03ac";

Tracing sample() {
    Tracing drawing;
    drawing.title = drawing.note = kHostile;
    drawing.size_mm = {120, 80};
    TracedLayer sea{kHostile, {Rgb8{10, 20, 30}, Rgb8{0, 0, 0}, 0.2, {1, 0.5}}, {}, {}, {}};
    sea.shapes.push_back({{{{10, 10}, {50.25, 10}, {50.25, 30.5}}, {{20, 12}, {22, 12}, {22, 14}}},
                          true,
                          Rgb8{1, 2, 3},
                          "a & \"b\""});
    sea.shapes.push_back({{{{5, 60}, {100, 70}}}, false, {}, ""});
    sea.window = PageBox{{1, 2}, {110, 70}, {}};
    sea.texts.push_back({"sea\u0301", {60, 40}, 8, false, Align::centre, {}});
    sea.halo_mm = 0.5;
    drawing.layers = {sea, sea};
    return drawing;
}

TEST(TracingSvg, OurReaderFindsTheShapes) {
    Tracing drawing = sample();
    for (TracedLayer& layer : drawing.layers) layer.texts.clear(), layer.window.reset();
    const Drawing read = read_svg_text(tracing_svg(drawing), "tide.svg");
    EXPECT_TRUE(read.warnings.empty()) << read.warnings.front();
    EXPECT_NEAR(read.size_mm.x, 120, 1e-9);
    EXPECT_NEAR(read.size_mm.y, 80, 1e-9);
    ASSERT_EQ(read.groups.size(), 2u);
    ASSERT_EQ(read.paths.size(), 4u);
    for (std::size_t i = 0; i < 4; ++i) {
        const TracedShape& shape = drawing.layers[i / 2].shapes[i % 2];
        EXPECT_EQ(read.paths[i].group, static_cast<int>(i / 2));
        ASSERT_EQ(read.paths[i].lines.size(), shape.lines_mm.size());
        for (std::size_t k = 0; k < shape.lines_mm.size(); ++k) {
            const DrawnLine& line = read.paths[i].lines[k];
            EXPECT_EQ(line.closed, shape.closed);
            ASSERT_EQ(line.points_mm.size(), shape.lines_mm[k].size());
            for (std::size_t p = 0; p < line.points_mm.size(); ++p) {
                EXPECT_NEAR(line.points_mm[p].x, shape.lines_mm[k][p].x, 1e-4);
                EXPECT_NEAR(line.points_mm[p].y, 80 - shape.lines_mm[k][p].y, 1e-4);
            }
        }
    }
}

// XML 1.0, 2.2 and 2.4: no control characters; markup characters only as references.
TEST(TracingSvg, WordsComeBackAsTheyWere) {
    const std::string text = tracing_svg(sample());
    for (const char c : text) EXPECT_TRUE(c == '\n' || c == '\t' || static_cast<unsigned char>(c) >= 0x20);
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_buffer(text.data(), text.size()));
    const pugi::xml_node root = svg.child("svg");
    EXPECT_STREQ(root.child("title").text().get(), kAsRead);
    EXPECT_STREQ(root.child("desc").text().get(), kAsRead);
    EXPECT_STREQ(root.child("g").child("title").text().get(), kAsRead);
}

TEST(TracingSvg, NamesAreUniqueAndWhatIsUsedIsThere) {
    const std::string text = tracing_svg(sample());
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_buffer(text.data(), text.size()));
    std::set<std::string> ids;
    for (const auto& found : svg.select_nodes("//g[@id]|//clipPath|//defs/path"))
        EXPECT_TRUE(ids.insert(found.node().attribute("id").value()).second);
    for (const auto& use : svg.select_nodes("//use"))
        EXPECT_EQ(ids.count(use.node().attribute("xlink:href").value() + 1), 1u);
    std::size_t windows = 0;
    for (const auto& layer : svg.select_nodes("//g[@clip-path]")) {
        const std::string url = layer.node().attribute("clip-path").value();
        EXPECT_EQ(ids.count(url.substr(5, url.size() - 6)), 1u) << url;
        ++windows;
    }
    EXPECT_EQ(windows, 2u);
    // Every glyph twice, as halo and as ink, in two layers; the outlines are shared.
    const std::size_t used = svg.select_nodes("//use").size();
    EXPECT_EQ(used % 4, 0u);
    EXPECT_EQ(svg.select_nodes("//defs/path").size(), used / 4);
}

}  // namespace
}  // namespace rakelight
