// Whatever file a layout reads is part of the scene: its hash knows it, and parts of different scenes do not
// join.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "tests/support/even_hall.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::holds;
using test::Outcome;
using test::run_in;

constexpr const char* kDrawing =
    "<svg xmlns='http://www.w3.org/2000/svg' width='80mm' height='60mm' viewBox='0 0 80 60'>"
    "<path id='rock' d='M0 0H30V60H0Z'/><path id='sea' d='M30 0H80V60H30Z'/></svg>\n";

constexpr const char* kLayout =
    "panel: {name: Sources, size: [80, 60]}\n"
    "drawing: tide.svg\n"
    "pigments: {my-blue: {curves: blue.csv, base: white-cement, weak: 1 %, strong: 8 %}}\n"
    "tints: {joint: {base: white-cement, pigments: {my-blue: 2 %}}}\n"
    "fields:\n"
    "  - {name: rock, opus: tessellatum, piece: 12, mix: slate, grout: joint}\n"
    "  - {name: sea, opus: tessellatum, piece: 12, mix: {picture: sky.png, from: [aqua, sky]}, grout: "
    "joint}\n"
    "set-ups: {hall: {light all round: {picture: hall.hdr, lux: 100}}}\n"
    "pictures: [{name: straight, size: [24, 18], grain: 50 %, most samples: 4}]\n";

void write_sources(const test::Folder& folder) {
    folder.write("tide.yaml", kLayout);
    folder.write("tide.svg", kDrawing);
    std::string curves;
    for (int nm = 400; nm <= 700; nm += 20) curves += std::to_string(nm) + ", 40 %, 20 %\n";
    folder.write("blue.csv", curves);
    std::filesystem::copy_file(RAKELIGHT_SCENES "/squall.png", folder / "sky.png");
    folder.write("hall.hdr", test::even_hall_hdr());
}

std::string hash_of(const test::Folder& folder, const std::string& more = "") {
    const Outcome o = run_in(folder, "lay tide.yaml --only pieces" + more);
    EXPECT_EQ(o.code, 0) << o.err;
    return nlohmann::json::parse(test::bytes_of(folder / "renders/tide/laying.json"))["scene_hash"];
}

TEST(SourceFiles, EachCountsInTheSceneHash) {
    const test::Folder folder;
    write_sources(folder);
    std::set<std::string> hashes{hash_of(folder)};
    // Bytes that change nothing else: a comment, a remark, what follows the end of a picture.
    const std::pair<const char*, const char*> changes[] = {{"tide.svg", "<!-- second thoughts -->\n"},
                                                           {"blue.csv", "# second thoughts\n"},
                                                           {"sky.png", "\n"},
                                                           {"hall.hdr", "\n"}};
    for (const auto& [name, bytes] : changes) {
        const std::string before = test::bytes_of(folder / name);
        folder.write(name, before + bytes);
        EXPECT_TRUE(hashes.insert(hash_of(folder)).second) << name;
        folder.write(name, before);
        EXPECT_TRUE(hashes.contains(hash_of(folder))) << name;
    }
    std::filesystem::copy_file(folder / "renders/tide/pieces.csv", folder / "mine.csv");
    EXPECT_TRUE(hashes.insert(hash_of(folder, " --pieces mine.csv")).second);
    folder.write("mine.csv", test::bytes_of(folder / "mine.csv") + "\n");
    EXPECT_TRUE(hashes.insert(hash_of(folder, " --pieces mine.csv")).second);
    folder.write("unread.svg", kDrawing);
    EXPECT_TRUE(hashes.contains(hash_of(folder)));
}

TEST(SourceFiles, JoinRefusesPartsOfTwoDrawings) {
    const test::Folder folder;
    write_sources(folder);
    const auto render = [&](const char* share) {
        return run_in(folder, std::string("preview tide.yaml --into parts --quiet --part ") + share).code;
    };
    const char* join =
        "join parts/tide/straight.part-1-of-2.exr parts/tide/straight.part-2-of-2.exr --into whole";
    ASSERT_EQ(render("1/2"), 0);
    ASSERT_EQ(render("2/2"), 0);
    EXPECT_EQ(run_in(folder, join).code, 0);
    std::string drawing = kDrawing;
    drawing.replace(drawing.find("M0 0H30"), 7, "M0 0H29");
    folder.write("tide.svg", drawing);
    ASSERT_EQ(render("2/2"), 0);
    const Outcome refused = run_in(folder, join);
    EXPECT_EQ(refused.code, 2);
    EXPECT_TRUE(holds(refused.err, "scene")) << refused.err;
}

}  // namespace
}  // namespace rakelight
