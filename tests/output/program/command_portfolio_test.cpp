// `rakelight portfolio` and `rakelight all`, run as an artist would.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/support/run_program.h"

namespace rakelight::test {
namespace {

constexpr const char* kPool = R"(
panel: {name: Pool, size: [120, 90]}
fields: [{name: all, piece: 30, mix: {celadon: 50 %, slate: 50 %}}]
room: {size: [4000, 4000, 2800]}
portfolio:
  print: 50
  dpi: 72
  most samples: 2
  show: [straight, details, in place]
  details: [{at: [60, 45], width: 60}]
  caption: {title: The pool, price: 4800}
)";

std::string replaced(const std::string& what, const std::string& by) {
    std::string text = kPool;
    return text.replace(text.find(what), what.size(), by);
}

TEST(CommandPortfolio, MakesPrintsAProposalAndTheNumbers) {
    const Folder folder;
    folder.write("pool.yaml", kPool);
    const Outcome o = run_in(folder, "portfolio pool.yaml --quiet");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto made = folder.path() / "renders" / "pool";
    for (const char* name : {"portfolio-straight.png", "portfolio-detail-1.png", "portfolio-in-place.png",
                             "proposal.pdf", "portfolio.json"})
        EXPECT_TRUE(std::filesystem::exists(made / name)) << name;
    const auto in = OIIO::ImageInput::open((made / "portfolio-straight.png").string());
    ASSERT_TRUE(in);
    EXPECT_EQ(in->spec().width, 142);  // 50 / 25.4 * 72
    EXPECT_EQ(in->spec().get_string_attribute("ImageDescription"), "Rendering, not a photograph");
    EXPECT_NEAR(in->spec().get_float_attribute("XResolution"), 72, 0.02);
    const auto json = nlohmann::json::parse(bytes_of(made / "portfolio.json"));
    EXPECT_EQ(json.at("format"), "rakelight portfolio");
    EXPECT_EQ(json.at("pictures").size(), 3u);
    EXPECT_EQ(json.at("files").size(), 4u);
    EXPECT_NEAR(json.at("pictures")[0].at("picture_mm")[0].get<double>(), 50, 0.2);
    EXPECT_EQ(json.at("panels")[0].at("width_mm"), 120);
}

TEST(CommandPortfolio, SameBytesOnAnyThreadsAndWhenPicturesAreKept) {
    const Folder folder;
    folder.write("pool.yaml", kPool);
    ASSERT_EQ(run_in(folder, "portfolio pool.yaml --quiet --threads 1 --into a").code, 0);
    ASSERT_EQ(run_in(folder, "portfolio pool.yaml --quiet --threads 2 --into b").code, 0);
    for (const char* name :
         {"portfolio-straight.png", "portfolio-in-place.png", "proposal.pdf", "portfolio.json"})
        EXPECT_EQ(bytes_of(folder.path() / "a" / "pool" / name),
                  bytes_of(folder.path() / "b" / "pool" / name))
            << name;
    const Outcome kept = run_in(folder, "portfolio pool.yaml --quiet --skip-finished --into b");
    ASSERT_EQ(kept.code, 0) << kept.err;
    EXPECT_TRUE(holds(kept.out, "portfolio-straight.png kept"));
    EXPECT_EQ(bytes_of(folder.path() / "a" / "pool" / "proposal.pdf"),
              bytes_of(folder.path() / "b" / "pool" / "proposal.pdf"));
    const Outcome other =
        run_in(folder, "portfolio pool.yaml --quiet --skip-finished --dpi 60 --show straight --into b");
    EXPECT_FALSE(holds(other.out, "kept")) << "a picture of another size";
}

TEST(CommandPortfolio, TheProposalIsDated) {
    const Folder folder;
    folder.write("pool.yaml", kPool);
    folder.write("dated.yaml", replaced("price: 4800", "price: 4800, date: 2026-05-01"));
    const auto date_of = [&](const std::string& arguments, const std::string& before = ":") {
        const Outcome o =
            run_in(folder, "portfolio --quiet --show straight --into made " + arguments, before);
        EXPECT_EQ(o.code, 0) << o.err;
        const std::string name = arguments.substr(0, arguments.find('.'));
        return nlohmann::json::parse(bytes_of(folder.path() / "made" / name / "portfolio.json"))
            .at("date")
            .get<std::string>();
    };
    EXPECT_EQ(date_of("pool.yaml", "export SOURCE_DATE_EPOCH=1000000000"), "9 September 2001");
    EXPECT_EQ(date_of("dated.yaml"), "1 May 2026");
    EXPECT_EQ(date_of("dated.yaml --date 2027-01-31"), "31 January 2027");
    EXPECT_EQ(date_of("dated.yaml --date none"), "");
    expect_refused(folder, "portfolio pool.yaml --date tomorrow", "--date: found \"tomorrow\"");
}

TEST(CommandPortfolio, PicturesAreKeptWhenWordsChangeAndNotWhenTheWorkDoes) {
    const Folder folder;
    folder.write("pool.yaml", kPool);
    const std::string command = "portfolio pool.yaml --quiet --skip-finished --show straight";
    ASSERT_EQ(run_in(folder, command).code, 0);
    folder.write("pool.yaml", "# A remark.\n" + replaced("title: The pool", "title: Anew"));
    EXPECT_TRUE(holds(run_in(folder, command).out, "kept"));
    folder.write("pool.yaml", replaced("  dpi: 72", "  dpi: 72\n  light: {straight: wash}"));
    EXPECT_FALSE(holds(run_in(folder, command).out, "kept"));
    EXPECT_TRUE(holds(run_in(folder, command).out, "kept"));
    folder.write("pool.yaml", replaced("celadon: 50 %, slate: 50 %", "celadon: 40 %, slate: 60 %"));
    EXPECT_FALSE(holds(run_in(folder, command).out, "kept"));
}

TEST(CommandPortfolio, MistakesAreToldAndNothingIsWritten) {
    const Folder folder;
    folder.write("pool.yaml", replaced("in place", "in palce"));
    for (const char* command : {"portfolio pool.yaml", "check pool.yaml"}) {
        const Outcome o = run_in(folder, command);
        EXPECT_EQ(o.code, 2);
        EXPECT_TRUE(holds(o.err, "pool.yaml:9:29: portfolio.show: found \"in palce\"")) << o.err;
        EXPECT_TRUE(holds(o.err, "did you mean in place?")) << o.err;
    }
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
    folder.write("pool.yaml", kPool);
    expect_refused(folder, "portfolio pool.yaml --show sparkel", "did you mean sparkle?");
    EXPECT_EQ(run_in(folder, "portfolio pool.yaml --show both").code, 2);
}

TEST(CommandPortfolio, AFolderThatCannotBeWrittenIsCode3) {
    const Folder folder;
    folder.write("pool.yaml", kPool);
    folder.write("renders", "in the way");
    EXPECT_EQ(run_in(folder, "portfolio pool.yaml --quiet").code, 3);
}

TEST(CommandAll, MakesWhatTheLayoutHasAndGoesOnPastFailures) {
    const Folder folder;
    folder.write("pool.yaml", std::string(kPool) + "pictures: [{name: straight, size: [64, 48]}]\n");
    // A folder where `lay` wants to write its numbers: that step alone fails.
    std::filesystem::create_directories(folder.path() / "renders" / "pool" / "laying.json" / "x");
    const Outcome o = run_in(folder, "all pool.yaml --draft --without stock,glare,take-off");
    EXPECT_EQ(o.code, 3) << o.err;
    EXPECT_TRUE(holds(o.err, "Failed (3): lay")) << o.err;
    EXPECT_FALSE(holds(o.err, ": board")) << "the layout has none";
    const auto made = folder.path() / "renders" / "pool";
    for (const char* name :
         {"laying.svg", "straight.png", "portfolio-straight.png", "proposal.pdf", "index.html"})
        EXPECT_TRUE(std::filesystem::exists(made / name)) << name;
    for (const char* name : {"stock.json", "glare.json"})
        EXPECT_FALSE(std::filesystem::exists(made / name)) << name;
}

TEST(CommandAll, RefusesALayoutThatIsWrongBeforeAnythingIsMade) {
    const Folder folder;
    folder.write("pool.yaml", "panel: {size: [120]}\n");
    const Outcome o = run_in(folder, "all pool.yaml");
    EXPECT_EQ(o.code, 2);
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
    folder.write("pool.yaml", kPool);
    expect_refused(folder, "all pool.yaml --without glar", "did you mean glare?");
}

}  // namespace
}  // namespace rakelight::test
