// An 18 % card prints as byte 118 (IEC 61966-2-1: encode(0.18) = 0.461356, 255 times that is 117.6); whites:
// CIE 15:2004 tables (A: 1.09850, 1, 0.35585).
#include "output/print/develop.h"

#include <gtest/gtest.h>

#include <cmath>

#include "output/preview/deliver.h"
#include "output/print/exposure.h"
#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

const Xyz kWhiteA{1.09850, 1, 0.35585};

// A film that is one colour all over.
Film plain_film(const Xyz& colour, int side = 4) {
    Film film = test::make_film(side, side);
    film.groups = {"one"};
    film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(colour.x, colour.y, colour.z)));
    return film;
}

double byte(float encoded) {
    return 255 * static_cast<double>(encoded);
}

Xyz times(const Xyz& c, double f) {
    return {c.x * f, c.y * f, c.z * f};
}

TEST(Develop, GreyCardPrints118UnderAnyLightOfAnyStrength) {
    for (const double lux : {5.0, 200.0, 20000.0})
        for (const Xyz& white : {kWhiteA, Xyz{0.95047, 1, 1.08883}}) {
            const double card = card_luminance_cd_per_m2(lux);
            Developing how;
            how.ev100 = ev100_of(card);
            how.light_white = times(white, lux);  // its Y must not matter
            const Print print = develop(plain_film(times(white, card)), how);
            for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(byte(print.rgb[c]), 118, 1) << lux;
        }
}

// ISO 2720: EV 6.518 belongs to 11.459 cd/m2; one stop more halves the linear light.
TEST(Develop, StatedExposure) {
    Developing how;
    how.light_white = linear_rgb_to_xyz({1, 1, 1});
    how.ev100 = 6.518;
    EXPECT_NEAR(byte(develop(plain_film(times(how.light_white, 11.459)), how).rgb[1]), 118, 1);
    how.ev100 = 7.518;
    EXPECT_NEAR(decode({0, develop(plain_film(times(how.light_white, 11.459)), how).rgb[1], 0}).g, 0.09,
                1e-4);
}

TEST(Develop, IncompleteAdaptationLeavesWarmLightWarmAndAsBright) {
    Developing how;
    how.light_white = kWhiteA;
    how.ev100 = ev100_of(10);
    const Film film = plain_film(times(kWhiteA, 10));
    double warmth_before = -1;
    for (const double degree : {1.0, 0.9, 0.8}) {
        how.adaptation = degree;
        const Print print = develop(film, how);
        const LinearRgb c = decode({print.rgb[0], print.rgb[1], print.rgb[2]});
        EXPECT_GT(c.r - c.b, warmth_before);
        EXPECT_NEAR(linear_rgb_to_xyz(c).y, 0.18, 2e-4);
        warmth_before = c.r - c.b - 1e-3;
    }
}

TEST(Develop, HaloLeavesACardAloneAndLightsTheNeighboursOfAGlint) {
    Developing how;
    how.light_white = linear_rgb_to_xyz({1, 1, 1});
    how.ev100 = ev100_of(10);
    Film film = plain_film(times(how.light_white, 10), 41);
    const std::size_t middle = 20 * 41 + 20;
    const Print card = develop(film, how);
    how.pixel_deg = 0.03;
    EXPECT_EQ(develop(film, how).rgb, card.rgb);
    film.xyz[0][middle] *= 5000.0f;
    const Print spread = develop(film, how);
    how.pixel_deg.reset();
    const Print hard = develop(film, how);
    EXPECT_NEAR(byte(hard.rgb[3 * (middle + 2)]), 118, 1);
    // Threshold of our own, only to catch a slip.
    EXPECT_GT(spread.rgb[3 * (middle + 2)], hard.rgb[3 * (middle + 2)] + 0.05f);
    EXPECT_NEAR(byte(spread.rgb[3 * middle + 2]), 255, 1);
}

TEST(Develop, DeliveryFollowsTheNotes) {
    NotedFilm noted{test::make_film(8, 4), test::make_notes()};
    const double lux = noted.notes.illuminance_xyz[0].y + noted.notes.illuminance_xyz[1].y;
    EXPECT_NEAR(developing_for(noted, true).ev100, ev100_of(0.18 * lux / std::acos(-1)), 1e-9);
    EXPECT_EQ(developing_for(noted, false).pixel_deg, std::nullopt);
    noted.notes.ev = 4.25;
    EXPECT_EQ(developing_for(noted, true).ev100, 4.25);
    noted.notes.ev.reset();
    noted.notes.exposure_rule = "adapted";
    EXPECT_NEAR(developing_for(noted, true).ev100, ev100_of(eye_luminance_cd_per_m2(noted.film)), 1e-9);
    noted.notes.exposure_rule = "grey-card";
    for (Xyz& group : noted.notes.illuminance_xyz) group = {};
    EXPECT_THROW(developing_for(noted, true), RequestError);
    noted.notes.exposure_rule = "guess";
    EXPECT_THROW(check_exposure(noted.notes), RequestError);
}

}  // namespace
}  // namespace rakelight
