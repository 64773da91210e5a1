// FNV-1a test vectors of 64 bits: Noll's published table (also draft-eastlake-fnv, appendix C).
#include "output/film/scene_hash.h"

#include <gtest/gtest.h>

#include <functional>
#include <set>

namespace rakelight {
namespace {

TEST(SceneHash, Fnv1aPublishedVectors) {
    EXPECT_EQ(fnv1a(""), 0xcbf29ce484222325u);
    EXPECT_EQ(fnv1a("a"), 0xaf63dc4c8601ec8cu);
    EXPECT_EQ(fnv1a("foobar"), 0x85944171f73967e8u);
}

TEST(SceneHash, SixteenDigits) {
    EXPECT_EQ(hash_digits(0xabu), "00000000000000ab");
}

// Every member by its name, so that a new one breaks this line until it is asked for below.
TEST(SceneHash, EveryOptionOfThePictureCounts) {
    [[maybe_unused]] const auto& [name, viewpoint, light, lamps, width_px, height_px, ev, exposure, error,
                                  most_samples, grain_seed, place] = Picture();
    Picture plain;
    plain.name = "hall";
    plain.viewpoint = "door";
    plain.lamps = {"spots"};
    const std::function<void(Picture&)> changes[] = {
        [](Picture& p) { p.name = "halldoor", p.viewpoint.clear(); },
        [](Picture& p) { p.viewpoint = "window"; },
        [](Picture& p) { p.light = "dusk"; },
        [](Picture& p) { p.lamps.clear(); },
        [](Picture& p) { p.lamps.emplace_back(); },
        [](Picture& p) { p.width_px += 1; },
        [](Picture& p) { p.height_px += 1; },
        [](Picture& p) { p.ev = 0; },
        [](Picture& p) { p.exposure = "adapted"; },
        [](Picture& p) { p.error = 0.03; },
        [](Picture& p) { p.most_samples += 1; },
        [](Picture& p) { p.grain_seed = 0; }};
    std::set<std::uint64_t> hashes{scene_hash(7, "1", plain), scene_hash(8, "1", plain),
                                   scene_hash(7, "2", plain), scene_hash(7, "", plain)};
    for (const auto& change : changes) {
        Picture picture = plain;
        change(picture);
        hashes.insert(scene_hash(7, "1", picture));
    }
    EXPECT_EQ(hashes.size(), 4 + std::size(changes));
    EXPECT_TRUE(hashes.contains(scene_hash(7, "1", plain)));
    Picture moved = plain;  // to another line of the file
    moved.place.line = 12;
    EXPECT_EQ(scene_hash(7, "1", moved), scene_hash(7, "1", plain));
}

}  // namespace
}  // namespace rakelight
