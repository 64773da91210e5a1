// Light of lamps cut into parts, against closed forms of photometry.
#include "output/glare/measures/lamp_parts.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

double lux(const Emitter& lamp, const glm::dvec3& at, const glm::dvec3& normal) {
    double sum = 0;
    for (const LampPart& part : parts_of(lamp, at)) sum += lux_on(lamp, part, at, normal);
    return sum;
}

Lamp lamp_at(LampForm form, const glm::dvec3& at) {
    Lamp lamp;
    lamp.form = form;
    lamp.at_mm = at;
    lamp.aim_mm = {at.x, 0, at.z};
    return lamp;
}

// E = I / d^2, and I cos^3(t) / h^2 on a plane off the axis: 1000 cd from 2 m give 250 lx, and 30 degrees off
// 162.380 lx.
TEST(LampParts, SmallLampsFollowTheInverseSquare) {
    Lamp lamp = lamp_at(LampForm::bulb, {0, 2000, 0});
    lamp.candela = 1000;
    lamp.width_mm = 20;
    const Emitter e = make_emitter(lamp, glm::dvec3(0), 0);
    EXPECT_NEAR(lux(e, {0, 0, 0}, {0, 1, 0}), 250, 0.1);
    EXPECT_NEAR(lux(e, {2000 * std::tan(glm::radians(30.0)), 0, 0}, {0, 1, 0}), 162.380, 0.1);
    EXPECT_EQ(lux(e, {0, 0, 0}, {0, -1, 0}), 0);
}

// E = pi L F. Under the centre of a 2 x 2 source at a distance of 1, F = 0.554126; under the centre of a 1 x
// 1 at 2, 0.073478 (Howell, A Catalog of Radiation Heat Transfer Configuration Factors, cases of an element
// and a parallel rectangle).
TEST(LampParts, WidePanelsHaveTheirConfigurationFactor) {
    Lamp lamp = lamp_at(LampForm::panel, {0, 1000, 0});
    lamp.width_mm = lamp.height_mm = 2000;
    lamp.lumen = 1000;  // over 4 m2: pi L = 250
    EXPECT_NEAR(lux(make_emitter(lamp, glm::dvec3(0), 0), {0, 0, 0}, {0, 1, 0}), 250 * 0.554126, 0.8);
    lamp.width_mm = lamp.height_mm = 1000;
    lamp.at_mm.y = 2000;
    EXPECT_NEAR(lux(make_emitter(lamp, glm::dvec3(0), 0), {0, 0, 0}, {0, 1, 0}), 1000 * 0.073478,
                0.4);  // parts are reckoned by their middles
}

// A lantern sends its candela sideways whatever its size.
TEST(LampParts, BodiesSendWhatTheyAreSaidTo) {
    Lamp lamp = lamp_at(LampForm::lantern, {0, 1500, 4000});
    lamp.candela = 160;
    lamp.width_mm = 200;
    lamp.height_mm = 300;
    EXPECT_NEAR(lux(make_emitter(lamp, glm::dvec3(0), 0), {0, 1500, 0}, {0, 0, 1}), 10, 0.05);
}

TEST(LampParts, NoneIsSeenWiderThanItMayBe) {
    Lamp lamp = lamp_at(LampForm::panel, {0, 1000, 0});
    lamp.width_mm = 1000;
    lamp.height_mm = 300;
    lamp.lumen = 1000;
    const auto parts = parts_of(make_emitter(lamp, glm::dvec3(0), 0), {0, 0, 0});
    EXPECT_GT(parts.size(), 6u);
    double area = 0;
    for (const LampPart& part : parts) {
        EXPECT_LT(glm::degrees(2 * std::atan(glm::length(part.half_u_mm) / 1000)), kWidestPart_deg + 0.01);
        area += 4 * glm::length(glm::cross(part.half_u_mm, part.half_v_mm));
    }
    EXPECT_NEAR(area, 300000, 1);
}

}  // namespace
}  // namespace rakelight
