// Pages of the numbered map.
#include "output/lay/map.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {

// A ruler is read by whoever lays: 1, 2 or 5 and noughts, and marks that stand apart.
TEST(LayingMap, RulersHaveRoundFigures) {
    for (const int piece_mm : {6, 9, 14, 20, 40, 90}) {
        const Layout layout = read_layout_text(
            fmt::format("panel: {{size: [700, 466.7]}}\nfields: [{{name: all, piece: {}, mix: slate}}]\n",
                        piece_mm),
            "t.yaml");
        const Laying laying = lay(layout);
        const LayingMap map =
            make_map(layout, laying, report_laying(layout, laying, "p", 0), {paper_called("A3")});
        int figures = 0;
        for (const Tracing& page : map.pages)
            for (const TracedLayer& layer : page.layers) {
                if (layer.name != "millimetres of the panel") continue;
                for (const PageText& text : layer.texts) {
                    EXPECT_EQ(text.text.find_first_not_of("0123456789"), std::string::npos) << text.text;
                    EXPECT_EQ(std::stoi(text.text) % 5, 0) << text.text;
                    ++figures;
                }
            }
        EXPECT_GE(figures, 6) << map.scale;  // three along either side
    }
}

}  // namespace rakelight
