// Judges: the HTML standard (character references; script elements end at "</script"), RFC 3986 (unreserved).
#include "output/web/markup.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace rakelight {
namespace {

TEST(Markup, TextStandsForItself) {
    EXPECT_EQ(html_text("Rock & \"foam\" <b>'x'</b>"),
              "Rock &amp; &quot;foam&quot; &lt;b&gt;&#39;x&#39;&lt;/b&gt;");
    EXPECT_EQ(html_text("Größe\x01"), "Größe ");
}

TEST(Markup, NothingEndsAScript) {
    const nlohmann::ordered_json json{{"name", "</script><script>alert(1)"}};
    const std::string text = script_json(json);
    EXPECT_EQ(text.find('<'), std::string::npos);
    EXPECT_EQ(nlohmann::ordered_json::parse(text), json);
}

TEST(Markup, LinksAreEncoded) {
    EXPECT_EQ(link_to("deep sea/a#1?.png"), "deep%20sea/a%231%3F.png");
    EXPECT_EQ(link_to("ebb-2_x.~"), "ebb-2_x.~");
    EXPECT_EQ(link_to("\xc3\xa9.png"), "%C3%A9.png");
}

TEST(Markup, WordsAreFilledInOnce) {
    EXPECT_EQ(filled_in("a @x@ b @y@ c@d", {{"x", "@y@"}, {"y", "2"}}), "a @y@ b 2 c@d");
    EXPECT_EQ(filled_in("@media {@x@}", {{"x", "1"}}), "@media {1}");
}

}  // namespace
}  // namespace rakelight
