// The mirrored ball, unwrapped, against a synthetic one: photographs of a ball made from a known surround by
// the law of reflection, here by cutting sight lines with the sphere.
#include "output/mirrored_ball/unwrap.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <random>

#include "materials/colour/colorimetry.h"
#include "output/system/errors.h"
#include "scene/surround/read_surround.h"
#include "tests/support/run_program.h"
#include "tests/support/surround_samples.h"
#include "tests/support/test_folder.h"

using namespace rakelight;

namespace {

constexpr int kSide_px = 900;

// A hall: floor, walls, ceiling of smooth shades, a window and a lamp 600 times as bright as the walls.
glm::vec3 hall(const glm::vec3& d) {
    glm::vec3 light(0.5f + 0.3f * d.x, 0.5f, 0.45f + 0.2f * d.y);
    if (d.y < -0.3f) light *= 0.4f;
    if (d.x > 0.6f && std::abs(d.y) < 0.3f) light = {6, 7, 9};
    if (glm::dot(d, glm::normalize(glm::vec3(-0.3f, 0.6f, 0.7f))) > std::cos(0.05f)) light = {320, 300, 250};
    return light;
}

// The light that a camera sees at a place of the photograph, mean of 4 x 4 points of the pixel.
glm::dvec3 seen(const BallView& view, int x, int y) {
    glm::dvec3 sum(0);
    for (int k = 0; k < 16; ++k)
        if (const auto d = mirrored_from(view, {x + (k % 4 + 0.5) / 4, y + (k / 4 + 0.5) / 4}))
            sum += glm::dvec3(hall(glm::vec3(*d)));
    return sum / 16.0;
}

// An 8-bit sRGB photograph with noise, exposed so that light of 1 / exposure is white.
void photograph(const std::filesystem::path& path, const BallView& view, double exposure) {
    OIIO::ImageSpec spec(kSide_px, kSide_px, 3, OIIO::TypeDesc::UINT8);
    std::vector<std::uint8_t> bytes;
    std::mt19937 chance(7);
    std::normal_distribution<double> noise(0, 0.002);
    for (int y = 0; y < kSide_px; ++y)
        for (int x = 0; x < kSide_px; ++x) {
            const glm::dvec3 light = seen(view, x, y) * exposure;
            for (const std::uint8_t v : to_bytes(
                     encode({light.x + noise(chance), light.y + noise(chance), light.z + noise(chance)})))
                bytes.push_back(v);
        }
    const auto out = OIIO::ImageOutput::create(path.string());
    ASSERT_TRUE(out->open(path.string(), spec));
    ASSERT_TRUE(out->write_image(OIIO::TypeDesc::UINT8, bytes.data()));
    ASSERT_TRUE(out->close());
}

BallView far_ball() {
    return {{452.3, 447.8}, 430, {}};
}
BallView near_ball() {
    return {{452.3, 447.8}, 430, 12.0};
}

}  // namespace

// There and back, and by the law of reflection: the normal halves the angle.
TEST(MirroredBall, PlacesAndDirectionsAreEachOthersInverse) {
    for (const BallView& view : {far_ball(), near_ball(), BallView{{300, 200}, 100, 2.0}})
        for (const glm::dvec3& d :
             {glm::dvec3(0, 0, 1), {0.6, 0, 0.8}, {0, -1, 0}, {-0.6, 0.64, -0.48}, {0.1, 0.1, -0.9}}) {
            const glm::dvec3 to = glm::normalize(d);
            const glm::dvec2 place = mirrored_at_px(view, to);
            // A ball hides what lies within asin(1 / away) of straight behind it.
            if (view.away_radii && -to.z > std::sqrt(1 - 1 / (*view.away_radii * *view.away_radii))) {
                EXPECT_NEAR(glm::distance(place, view.middle_px), view.radius_px, 1e-6);
                continue;
            }
            const auto back = mirrored_from(view, place);
            ASSERT_TRUE(back);
            EXPECT_LT(glm::distance(*back, to), 1e-5) << d.x << " " << d.z;
        }
    // Far away a ball mirrors at r / R = sin(angle / 2): at right angles to the camera 1 / sqrt 2 (by hand).
    const glm::dvec2 at = mirrored_at_px({{0, 0}, 100, {}}, {1, 0, 0});
    EXPECT_NEAR(at.x, 100 / std::sqrt(2), 1e-9);
    EXPECT_NEAR(at.y, 0, 1e-9);
    EXPECT_LT(mirrored_at_px({{0, 0}, 100, {}}, {0, 1, 0}).y, 0);  // up is up
    EXPECT_FALSE(mirrored_from(far_ball(), {10, 10}));
}

TEST(MirroredBall, GivesTheHallBack) {
    const test::Folder folder;
    for (const BallView& view : {far_ball(), near_ball()}) {
        std::vector<BallShot> shots;
        for (const double exposure : {1.0, 0.05, 0.0025}) {
            photograph(folder / "ball.png", view, exposure);
            shots.push_back({Photograph(folder / "ball.png"), exposure});
        }
        const Unwrapped made = unwrap(shots, view, 512);
        const SurroundPicture& p = made.picture;
        const SurroundPicture truth = surround_of(256, hall);
        double flux = 0, wrong = 0, wanted = 0;
        for (std::size_t i = 0; i < p.rgb.size(); ++i) {
            const int x = static_cast<int>(i) % p.width_px, y = static_cast<int>(i) / p.width_px;
            if (pixel_direction(p, x, y).z < -0.8f) continue;  // behind the ball: the rim, a few pixels
            const double sr = pixel_sr(p, y);
            flux += sr * double(luminance_of(p.rgb[i]));
            wanted += sr * double(luminance_of(truth.rgb[i]));
        }
        const double scale = wanted / flux;
        std::vector<double> off;
        glm::dvec3 lamp(0), of_lamp(0);
        for (std::size_t i = 0; i < p.rgb.size(); ++i) {
            const int x = static_cast<int>(i) % p.width_px, y = static_cast<int>(i) / p.width_px;
            const glm::vec3 d = pixel_direction(p, x, y);
            const double sr = pixel_sr(p, y), a = scale * double(luminance_of(p.rgb[i]));
            const double b = double(luminance_of(truth.rgb[i]));
            if (a > 30) lamp += sr * a * glm::dvec3(d);
            if (b > 30) of_lamp += sr * b * glm::dvec3(d);
            if (d.z > -0.8f) off.push_back(std::abs(a / b - 1));
            wrong += sr * std::abs(a - b);
        }
        std::ranges::sort(off);
        EXPECT_LT(off[off.size() / 2], 0.02);  // thresholds of our own: noise is 0.2 % of white
        EXPECT_LT(off[off.size() * 9 / 10], 0.06);
        EXPECT_NEAR(glm::length(lamp), glm::length(of_lamp), 0.02 * glm::length(of_lamp));
        EXPECT_GT(glm::dot(glm::normalize(lamp), glm::normalize(of_lamp)),
                  std::cos(0.3 * std::numbers::pi / 180));
        EXPECT_LT(made.cut_off_share, 1e-3);
        EXPECT_GT(made.most_over_mean, 100);
    }
}

TEST(MirroredBall, SaysWhatIsWhiteInEveryPhotograph) {
    const test::Folder folder;
    photograph(folder / "ball.png", far_ball(), 0.05);
    std::vector<BallShot> shots;
    shots.push_back({Photograph(folder / "ball.png"), 0.05});
    const double lamp_share = (1 - std::cos(0.05)) / 2;  // of the sphere, in closed form
    EXPECT_NEAR(unwrap(shots, far_ball(), 512).cut_off_share, lamp_share, 0.35 * lamp_share);
    EXPECT_THROW(unwrap(shots, {{100, 100}, 300, {}}, 512), std::runtime_error);
}

TEST(MirroredBall, CommandWritesAPictureThatALayoutTakes) {
    const test::Folder folder;
    photograph(folder / "a.png", far_ball(), 1);
    photograph(folder / "b.png", far_ball(), 0.0025);
    const std::string ball = " --ball 452.3,447.8,430";
    const test::Outcome good =
        test::run_in(folder, "unwrap a.png b.png --seconds 1,1/400 --width 256 --as hall.exr" + ball);
    EXPECT_EQ(good.code, 0) << good.err;
    EXPECT_NE(good.out.find("hall.exr: 256 x 128 pixels"), std::string::npos) << good.out;
    EXPECT_EQ(read_surround_picture(folder / "hall.exr").width_px, 256);
    EXPECT_EQ(OIIO::ImageInput::open((folder / "hall.exr").string())->spec().get_string_attribute("DateTime"),
              "");
    const std::pair<const char*, const char*> bad[] = {
        {"unwrap a.png b.png", "found no exposure noted by the camera"},
        {"unwrap a.png b.png --seconds 1", "found 1 for 2 photographs"},
        {"unwrap a.png --as hall.png", "--as: found hall.png"},
        {"unwrap c.png", "c.png: found no file"},
        {"unwrap a.png b.png --seconds 1,0", "--seconds: found 0"}};
    for (const auto& [words, said] : bad) {
        const test::Outcome refused = test::run_in(folder, words + ball);
        EXPECT_EQ(refused.code, 2) << words;
        EXPECT_NE(refused.err.find(said), std::string::npos) << refused.err;
    }
    EXPECT_EQ(folder.entries(), 3u);
    EXPECT_EQ(test::run_in(folder, "unwrap a.png --ball 100,100,300").code, 2);
}
