#include "scene/reading/deliverable_section.h"

#include <gtest/gtest.h>

#include "tests/support/layout_samples.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

std::string with(const std::string& more) {
    return std::string(kSmallLayout) + more;
}

TEST(DeliverableSection, IsReadByItsCommandAndLeftAloneByTheLayout) {
    const std::string text = with("\nglare: {bright ratio: 12}\n");
    EXPECT_NO_THROW(read_layout_text(text, "f.yaml"));
    double ratio = 0;
    EXPECT_TRUE(read_deliverable(parse_yaml(text, "f.yaml"), "f.yaml", "glare",
                                 [&](Section& in) { in.set(ratio, "bright ratio"); }));
    EXPECT_EQ(ratio, 12);
}

TEST(DeliverableSection, IsEmptyWhereTheFileHasNone) {
    bool asked = false;
    EXPECT_FALSE(read_deliverable(parse_yaml(with(""), "f.yaml"), "f.yaml", "board", [&](Section& in) {
        asked = true;
        EXPECT_FALSE(in.has("test piece"));
    }));
    EXPECT_TRUE(asked);
}

TEST(DeliverableSection, ReportsWhatIsWrongWithItsPlace) {
    const auto problems = [](const std::string& text) {
        return refusal_of([&] {
            read_deliverable(parse_yaml(text, "f.yaml"), "f.yaml", "glare",
                             [](Section& in) { in.find("bright ratio"); });
        });
    };
    EXPECT_NE(problems("glare: {birght ratio: 3}").find("f.yaml:1:9: glare.birght ratio"), std::string::npos);
    EXPECT_NE(problems("glare: {birght ratio: 3}").find("did you mean bright ratio?"), std::string::npos);
    EXPECT_NE(problems("glare: 3").find("f.yaml:1:8: glare"), std::string::npos);
    EXPECT_EQ(problems("glare: {bright ratio: 3}"), "");
}

}  // namespace
}  // namespace rakelight
