// `rakelight clip`, run as a person would; clips read back by OpenImageIO's readers of MP4 (FFmpeg) and PPM.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "materials/colour/colorimetry.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::Outcome;
using test::run_in;

// A matte slab of grey, large pieces without joints to speak of, under one lamp: what a flicker would show
// on.
constexpr const char* kMatte =
    "panel: {name: Slab, size: [400, 300]}\n"
    "fields: [{name: all, opus: regulatum, piece: 100, joint: 0.2, tilt: 0, lippage: 0, mix: slate}]\n"
    "room: {size: [4000, 4000, 2700], panel centre height: 1450}\n"
    "lamps:\n"
    "  - {name: spot, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 40}\n"
    "  - {name: wash, at: [-500, 2600, 900], aim: [0, 1450, 0], lumen: 300, beam angle: 40}\n"
    "clips: {seconds: 0.5, size: [128, 72], most samples: 16, walk past: {from: -300, to: 300, distance: "
    "1200}}\n";

struct Pixels {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;
    // Mean of linear luminance in a box about the middle.
    double luminance(int half_px) const {
        double sum = 0;
        for (int y = height / 2 - half_px; y < height / 2 + half_px; ++y)
            for (int x = width / 2 - half_px; x < width / 2 + half_px; ++x) {
                const std::size_t i = 3 * static_cast<std::size_t>(y * width + x);
                sum += linear_rgb_to_xyz(decode(from_bytes({rgb[i], rgb[i + 1], rgb[i + 2]}))).y;
            }
        return sum / (4 * half_px * half_px);
    }
    double lightness(int half_px) const {
        const double y = luminance(half_px);
        return xyz_to_lab({y, y, y}, {1, 1, 1}).l;
    }
};

std::vector<Pixels> frames_of(const std::filesystem::path& clip) {
    std::vector<Pixels> frames;
    const auto in = OIIO::ImageInput::open(clip.string());
    if (!in) return frames;
    for (int i = 0; in->seek_subimage(i, 0); ++i) {
        const OIIO::ImageSpec spec = in->spec(i);
        Pixels p{spec.width, spec.height,
                 std::vector<std::uint8_t>(static_cast<std::size_t>(spec.width * spec.height * 3))};
        if (!in->read_image(i, 0, 0, 3, OIIO::TypeDesc::UINT8, p.rgb.data())) break;
        frames.push_back(std::move(p));
    }
    return frames;
}

double deviation(const std::vector<double>& values) {
    double mean = 0, square = 0;
    for (const double v : values) mean += v / static_cast<double>(values.size());
    for (const double v : values) square += (v - mean) * (v - mean) / static_cast<double>(values.size());
    return std::sqrt(square);
}

TEST(CommandClip, AMattePatchDoesNotFlickerWhileTheEyeWalksPast) {
    const test::Folder folder;
    folder.write("slab.yaml", kMatte);
    const Outcome o = run_in(folder, "clip slab.yaml --only 'walk past' --quiet");
    ASSERT_EQ(o.code, 0) << o.err;
    const std::vector<Pixels> frames = frames_of(folder / "renders/slab/clip-walk-past.mp4");
    ASSERT_EQ(frames.size(), 12u);
    EXPECT_EQ(frames[0].width, 128);
    std::vector<double> lightness;
    for (const Pixels& frame : frames) lightness.push_back(frame.lightness(8));
    EXPECT_GT(lightness[0], 5);
    EXPECT_LT(deviation(lightness), 0.5);  // L*; the limit that was set for clips
    const std::string bytes = test::bytes_of(folder / "renders/slab/clip-walk-past.mp4");
    EXPECT_EQ(run_in(folder, "clip slab.yaml --only 'walk past' --quiet --threads 1").code, 0);
    EXPECT_TRUE(test::bytes_of(folder / "renders/slab/clip-walk-past.mp4") == bytes);
}

// Every lamp goes down to nothing: the last frame is black, and no frame is lighter than the one before.
TEST(CommandClip, DimmingGoesDownEvenlyToNothing) {
    const test::Folder folder;
    folder.write("slab.yaml", kMatte);
    const Outcome o = run_in(folder, "clip slab.yaml --only dimmed --quiet --json");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto json = nlohmann::json::parse(o.out);
    EXPECT_EQ(json["format"], "rakelight clip");
    EXPECT_EQ(json["frames"], 12);
    EXPECT_EQ(json["files"], nlohmann::json({"clip-dimmed.mp4", "clip-dimmed.webp"}));
    const std::vector<Pixels> frames = frames_of(folder / "renders/slab/clip-dimmed.mp4");
    ASSERT_EQ(frames.size(), 12u);
    for (std::size_t i = 1; i < frames.size(); ++i)
        EXPECT_LE(frames[i].luminance(16), frames[i - 1].luminance(16) + 0.002) << i;
    EXPECT_LT(frames.back().luminance(16), 0.001);
    EXPECT_GT(frames.front().luminance(16), 0.02);
    EXPECT_EQ(folder.entries(), 2u);  // the layout and renders: no frames are left
    std::size_t left = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder / "renders/slab"))
        left += entry.exists();
    EXPECT_EQ(left, 3u);
}

// Colours survive H.264: YCbCr by ITU-R BT.709 as the file says, of 8 bits. OpenImageIO turns all video back
// by BT.601, so its colours are taken apart by that first (coefficients of both recommendations).
TEST(EncodeClip, KeepsColours) {
    const test::Folder folder;
    const std::array<std::array<int, 3>, 5> colours{
        {{0, 0, 0}, {255, 255, 255}, {200, 60, 40}, {30, 90, 200}, {90, 160, 60}}};
    std::string frames;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        std::string pixel, bytes("P6 64 64 255\n");
        for (const int c : colours[i]) pixel += static_cast<char>(c);
        for (int k = 0; k < 64 * 64; ++k) bytes += pixel;
        frames += ' ';
        frames += folder.write(std::to_string(i) + ".ppm", bytes).string();
    }
    const std::string encoder = std::filesystem::path(RAKELIGHT_PROGRAM).parent_path() / "encode-clip";
    const std::filesystem::path clip = folder / "a.mp4";
    ASSERT_EQ(std::system(("'" + encoder + "' mp4 24 1 '" + clip.string() + "'" + frames).c_str()), 0);
    const std::vector<Pixels> read = frames_of(clip);
    ASSERT_EQ(read.size(), colours.size());
    for (std::size_t i = 0; i < colours.size(); ++i) {
        const std::size_t middle = 3 * (32 * 64 + 32);
        const double r = read[i].rgb[middle], g = read[i].rgb[middle + 1], b = read[i].rgb[middle + 2];
        const double y = 0.299 * r + 0.587 * g + 0.114 * b, cb = (b - y) / 1.772, cr = (r - y) / 1.402;
        const double red = y + 1.5748 * cr, blue = y + 1.8556 * cb;
        const double green = (y - 0.2126 * red - 0.0722 * blue) / 0.7152;
        EXPECT_NEAR(red, colours[i][0], 4) << i;
        EXPECT_NEAR(green, colours[i][1], 4) << i;
        EXPECT_NEAR(blue, colours[i][2], 4) << i;
    }
    EXPECT_NE(
        std::system(("'" + encoder + "' mp4 24 1 '" + clip.string() + "' gone.ppm 2>/dev/null").c_str()), 0);
}

// RIFF, WEBP, VP8X with its flag of animation, ANIM (developers.google.com/speed/webp: container
// specification).
TEST(CommandClip, WebpIsAnimatedAndOfHalfTheWidth) {
    const test::Folder folder;
    folder.write("slab.yaml", kMatte);
    ASSERT_EQ(run_in(folder, "clip slab.yaml --only dimmed --quiet --seconds 0.2").code, 0);
    const std::string bytes = test::bytes_of(folder / "renders/slab/clip-dimmed.webp");
    ASSERT_GT(bytes.size(), 60u);
    EXPECT_EQ(bytes.substr(0, 4), "RIFF");
    EXPECT_EQ(bytes.substr(8, 8), "WEBPVP8X");
    EXPECT_NE(bytes[20] & 2, 0);
    EXPECT_EQ(static_cast<unsigned char>(bytes[24]) + 1, 64);  // canvas width, 24 bits, less one
    EXPECT_NE(bytes.find("ANIM"), std::string::npos);
}

// Stopped between frames, it keeps those that are done, and goes on to the same bytes.
TEST(CommandClip, GoesOnAfterAnInterruption) {
    const test::Folder folder;
    folder.write("slab.yaml", kMatte);
    ASSERT_EQ(run_in(folder, "clip slab.yaml --only 'walk past' --quiet --into whole").code, 0);
    const std::string clip = "'" RAKELIGHT_PROGRAM "' clip slab.yaml --only 'walk past' --quiet";
    // Waits for the third frame, then Ctrl-C.
    const std::string stop =
        clip +
        " 2>.note & p=$!; while ! ls renders/slab/.clip-*/00003.ppm >/dev/null 2>&1; do "
        "kill -0 $p 2>/dev/null || break; sleep 0.01; done; kill -INT $p 2>/dev/null; wait $p; true";
    const Outcome o = run_in(folder, "clip slab.yaml --only 'walk past' --quiet", stop);
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(test::holds(o.err, "walk past goes on from frame")) << o.err;
    EXPECT_TRUE(test::bytes_of(folder / "renders/slab/clip-walk-past.mp4") ==
                test::bytes_of(folder / "whole/slab/clip-walk-past.mp4"));
}

TEST(CommandClip, RefusesWhatCannotBe) {
    const test::Folder folder;
    folder.write("slab.yaml", kMatte);
    test::expect_refused(folder, "clip slab.yaml --only day", "--only day: found no window");
    test::expect_refused(folder, "clip slab.yaml --only dimmd", "did you mean dimmed?");
    test::expect_refused(folder, "clip slab.yaml --size 161x90", "expected two even numbers");
    test::expect_refused(folder, "clip slab.yaml --light nowhere", "nowhere");
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
}

}  // namespace
}  // namespace rakelight
