// Reading a drawing that was damaged at random ends in a drawing or a LayoutError, never otherwise.
#include <gtest/gtest.h>

#include <cmath>
#include <iterator>
#include <string>
#include <string_view>

#include "scene/diagnostics.h"
#include "scene/hash.h"
#include "scene/svg_reader.h"
#include "svg_samples.h"

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
    Chance chance(11);
    const auto below = [&](std::size_t n) {
        return static_cast<std::size_t>(chance.within(0, static_cast<double>(n)));
    };
    int read = 0, refused = 0;
    for (int round = 0; round < 6000; ++round) {
        std::string text(round % 2 == 0 ? kPixelDialect : kMillimetreDialect);
        for (std::size_t cuts = 1 + below(3); cuts > 0; --cuts) {
            const std::size_t at = below(text.size());
            const std::string scrap(kScraps[below(std::size(kScraps))]);
            switch (below(5)) {
                case 0:
                    text[at] = static_cast<char>(below(256));
                    break;
                case 1:
                    text.erase(at, 1 + below(20));
                    break;
                case 2:
                    text.insert(at, scrap);
                    break;
                case 3:
                    text.replace(at, 1 + below(6), scrap);
                    break;
                default:
                    if (const auto digit = text.find_first_of("0123456789", at); digit != text.npos)
                        text[digit] = static_cast<char>('0' + below(10));
            }
        }
        try {
            const Drawing drawing = read_svg_text(text, "damaged.svg");
            EXPECT_GT(drawing.size_mm.x, 0);
            for (const DrawnPath& path : drawing.paths)
                for (const DrawnLine& line : path.lines) {
                    EXPECT_GE(line.points_mm.size(), line.closed ? 3u : 2u);
                    for (const glm::dvec2 p : line.points_mm)
                        ASSERT_TRUE(std::isfinite(p.x) && std::isfinite(p.y)) << text;
                }
            ++read;
        } catch (const LayoutError& error) {
            EXPECT_FALSE(error.problems().empty());
            ++refused;
        } catch (const std::exception& error) {
            FAIL() << "round " << round << ": " << error.what() << "\n" << text;
        }
    }
    EXPECT_GT(read, 1000);
    EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace rakelight
