// Reading a drawing that was damaged at random ends in a drawing or a LayoutError, never otherwise.
#include <gtest/gtest.h>

#include <cmath>
#include <iterator>
#include <string>
#include <string_view>

#include "scene/drawing/svg/reader.h"
#include "tests/support/damage.h"
#include "tests/support/svg_samples.h"

namespace rakelight {
namespace {

constexpr std::string_view kScraps[] = {"<",
                                        ">",
                                        "/>",
                                        "</g>",
                                        "<g>",
                                        "\"",
                                        "'",
                                        "=",
                                        "&",
                                        ";",
                                        "&#0;",
                                        "-",
                                        ".",
                                        "e",
                                        "1e308",
                                        "-1e308",
                                        "1e-320",
                                        "nan",
                                        "inf",
                                        "0",
                                        "z",
                                        "M",
                                        "A",
                                        "a1 1 0 0 1 0 0",
                                        "c",
                                        "S",
                                        "t",
                                        "\n",
                                        "<!--",
                                        "]]>",
                                        "<![CDATA[",
                                        "<!DOCTYPE",
                                        "<?",
                                        "%",
                                        "em",
                                        "scale(0)",
                                        "matrix(",
                                        "rotate(9)",
                                        "url(#ball)",
                                        "#ball",
                                        "#sea_1_",
                                        "\xff",
                                        "\x01",
                                        "_x20_",
                                        "viewBox='0 0 0 0'",
                                        "width='1e9'",
                                        "transform='skewX(90)'"};

TEST(SvgMutation, OnlyLayoutErrorsEscape) {
    Rng rng(11);
    const auto [read, refused] = read_damaged(
        6000,
        [&](int round) {
            return damaged(std::string(round % 2 == 0 ? kPixelDialect : kMillimetreDialect), kScraps, rng);
        },
        [](const std::string& text) {
            const Drawing drawing = read_svg_text(text, "damaged.svg");
            EXPECT_GT(drawing.size_mm.x, 0);
            for (const DrawnPath& path : drawing.paths)
                for (const DrawnLine& line : path.lines) {
                    EXPECT_GE(line.points_mm.size(), line.closed ? 3u : 2u);
                    for (const glm::dvec2 p : line.points_mm)
                        ASSERT_TRUE(std::isfinite(p.x) && std::isfinite(p.y)) << text;
                }
        });
    EXPECT_GT(read, 1000);
    EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace rakelight
