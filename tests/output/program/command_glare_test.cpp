// `rakelight glare` asked for what cannot be: told so at once, and nothing written.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <fstream>

#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::Folder;
using test::holds;
using test::run_in;

const std::string kLayout =
    "panel: {size: [120, 90]}\n"
    "fields: [{name: all, piece: 15, mix: deep-teal}]\n"
    "lamps: [{name: spot, at: [0, 2700, 900], aim: [0, 1450, 0], lumen: 700}]\n";

void write(const Folder& folder, const std::string& more) {
    std::ofstream(folder / "a.yaml") << kLayout << more;
}

TEST(CommandGlare, NeedsAViewpointThatSeesThePanel) {
    Folder folder;
    write(folder,
          "viewpoints: [{name: away, eye: [0, 1500, 2000], look at: [0, 1500, 4000], view width: 900}]\n");
    const auto outcome = run_in(folder, "glare a.yaml --quiet");
    EXPECT_EQ(outcome.code, 2);
    EXPECT_TRUE(holds(outcome.err, "no viewpoint asked for has the panel in view")) << outcome.err;
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
}

TEST(CommandGlare, TellsMistakesOfItsSectionAndSoDoesCheck) {
    Folder folder;
    write(folder, "glare: {move: {lamps: {spotty: {}}, lean: [8, 0]}}\n");
    for (const char* command : {"glare a.yaml --quiet", "check a.yaml"}) {
        const auto outcome = run_in(folder, command);
        EXPECT_EQ(outcome.code, 2);
        EXPECT_TRUE(holds(outcome.err, "a.yaml:4:24: glare.move.lamps.spotty: found \"spotty\""))
            << outcome.err;
        EXPECT_TRUE(holds(outcome.err, "glare.move.lean: found from 8 to 0")) << outcome.err;
    }
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
}

TEST(CommandGlare, RefusesNamesThatItDoesNotKnow) {
    Folder folder;
    write(folder, "");
    EXPECT_TRUE(holds(run_in(folder, "glare a.yaml --lamps spott").err, "did you mean spot?"));
    EXPECT_EQ(run_in(folder, "glare a.yaml --viewpoint nowhere").code, 2);
    EXPECT_EQ(run_in(folder, "glare a.yaml --moved b.yaml").code, 2);  // without --move
    EXPECT_EQ(run_in(folder, "glare a.yaml --move --moved a.yaml").code, 2);
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
}

TEST(CommandGlare, RefusesAPictureAllRoundWhoseLampsAreCutOff) {
    Folder folder;
    const std::vector<std::uint8_t> grey(64 * 32 * 3, 128);
    const auto out = OIIO::ImageOutput::create((folder / "hall.png").string());
    ASSERT_TRUE(out->open((folder / "hall.png").string(), OIIO::ImageSpec(64, 32, 3, OIIO::TypeDesc::UINT8)));
    ASSERT_TRUE(out->write_image(OIIO::TypeDesc::UINT8, grey.data()));
    ASSERT_TRUE(out->close());
    write(folder,
          "set-ups: {hall: {lamps: [], light all round: {picture: hall.png, lux: 200}}}\nlight: hall\n");
    const auto outcome = run_in(folder, "glare a.yaml --quiet");
    EXPECT_EQ(outcome.code, 2);
    EXPECT_TRUE(
        holds(outcome.err, "hall.png, a picture of whole numbers, in which every lamp is cut off at white"))
        << outcome.err;
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
    EXPECT_EQ(run_in(folder, "preview a.yaml --size 32x24 --most-samples 4 --quiet").code, 0);
}

}  // namespace
}  // namespace rakelight
