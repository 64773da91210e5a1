// `rakelight glare` asked for what cannot be: told so at once, and nothing written.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <fstream>

#include "tests/support/run_program.h"
#include "tests/support/surround_samples.h"

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

// A picture of even light but for a lamp 2.5 degrees in radius, 11.3 degrees up and 7.6 to the left of who
// faces the panel: where an eye 300 mm below and 200 mm to the right of the panel's middle, 1500 mm in front
// of it, sees it mirrored in the middle (law of reflection, by hand).
void write_hall(const std::string& path, int bits) {
    const bool whole = bits == 8;
    SurroundPicture p = surround_of(256, [&](const glm::vec3& d) {
        const glm::vec3 lamp = glm::normalize(glm::vec3(-200, 300, 1500));
        return glm::vec3(glm::dot(d, lamp) > 0.99905f ? (whole ? 1.0f : 800.0f) : 0.5f);
    });
    const auto out = OIIO::ImageOutput::create(path);
    const OIIO::ImageSpec spec(p.width_px, p.height_px, 3,
                               whole ? OIIO::TypeDesc::UINT8 : OIIO::TypeDesc::FLOAT);
    ASSERT_TRUE(out->open(path, spec));
    ASSERT_TRUE(out->write_image(OIIO::TypeDesc::FLOAT, p.rgb.data()));
    ASSERT_TRUE(out->close());
}

const std::string kAllRound =
    "panel: {size: [600, 450]}\n"
    "fields: [{name: all, piece: 40, mix: jet, setting: levelled}]\n"
    "viewpoints: [{name: seat, eye: [200, 1150, 1500], look at: [0, 1450, 0], view width: 900}]\n";

TEST(CommandGlare, NamesALampInAPictureAllRoundByItsDirection) {
    Folder folder;
    write_hall((folder / "hall.exr").string(), 32);
    folder.write("a.yaml", kAllRound + "light all round: {picture: hall.exr, lux: 200}\n");
    const auto outcome = run_in(folder, "glare a.yaml --most-samples 16 --quiet");
    EXPECT_EQ(outcome.code, 0) << outcome.err;
    EXPECT_TRUE(holds(outcome.out, "light all round: 8 degrees left, 11 up is reflected in the field all"))
        << outcome.out;
}

TEST(CommandGlare, RefusesAPictureAllRoundWhoseLampsAreCutOff) {
    Folder folder;
    write_hall((folder / "hall.png").string(), 8);
    folder.write("a.yaml", kAllRound + "light all round: {picture: hall.png, lux: 200}\n");
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
