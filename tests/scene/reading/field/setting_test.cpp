#include "scene/reading/field/setting.h"

#include <gtest/gtest.h>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Layout with(const std::string& keys) {
    return read_layout_text("panel: {size: [300, 200]}\nfields: [{name: all, mix: aqua, " + keys + "}]\n",
                            "t.yaml");
}

std::string problem_with(const std::string& keys) {
    return refusal_of([&] { with(keys); });
}

TEST(ReadSetting, WaysGiveTheirFiguresAndOwnKeysOverride) {
    // Table of usual figures: common practice, no published source.
    const Field reverse = with("setting: reverse").fields[0];
    EXPECT_TRUE(reverse.tilt_deg >= 0.3 && reverse.tilt_deg <= 0.8);
    EXPECT_DOUBLE_EQ(reverse.lippage_mm, 0.1);
    EXPECT_DOUBLE_EQ(reverse.setting.most_lippage_mm, 0.3);
    const Field smalti = with("setting: direct smalti, lippage: 0.4").fields[0];
    EXPECT_TRUE(smalti.tilt_deg >= 3 && smalti.tilt_deg <= 6);
    EXPECT_DOUBLE_EQ(smalti.setting.most_tilt_deg, 12);
    EXPECT_DOUBLE_EQ(smalti.lippage_mm, 0.4);
    EXPECT_DOUBLE_EQ(smalti.setting.most_lippage_mm, 0);
}

TEST(ReadSetting, FormsLeansDomesAndFill) {
    const Field f = with(
                        "form: fused edge, setting: catching light, dome: 1.5, fill: 80 %, tilt patch: 300, "
                        "lean towards: {point: [0, 2000, 3000]}, lean by: 12")
                        .fields[0];
    EXPECT_EQ(f.setting.form, PieceForm::fused_edge);
    EXPECT_EQ(f.setting.dome_mm, 1.5);
    EXPECT_DOUBLE_EQ(f.fill, 0.8);
    EXPECT_DOUBLE_EQ(f.setting.patch_mm, 300);
    EXPECT_EQ(f.setting.lean.at_mm, glm::dvec3(0, 2000, 3000));
    EXPECT_DOUBLE_EQ(f.setting.lean.mean_deg, 12);
    EXPECT_EQ(with("lean towards: {viewpoint: straight}").fields[0].setting.lean.viewpoint, "straight");
}

TEST(ReadSetting, TightJointsAreWashedOutLessAndDrawnShapesAreSawn) {
    // 0.3 to 0.8 mm below the faces in tight joints, 0.5 to 1.5 mm in usual ones: common practice, no
    // published source.
    EXPECT_DOUBLE_EQ(with("joint: 0.3").fields[0].recess_mm, 0.3);
    EXPECT_DOUBLE_EQ(with("joint: 0.7").fields[0].recess_mm, 0.7);
    EXPECT_DOUBLE_EQ(with("joint: 2").fields[0].recess_mm, 1);
    EXPECT_DOUBLE_EQ(with("joint: 0.3, recess: 2").fields[0].recess_mm, 2);
    const char* shapes = "opus: sectile, shapes: [[[20, 20], [80, 20], [50, 70]]]";
    EXPECT_EQ(with(shapes).fields[0].setting.form, PieceForm::sawn);
    EXPECT_EQ(with(std::string(shapes) + ", form: riven").fields[0].setting.form, PieceForm::riven);
}

TEST(ReadSetting, WhatIsWrongIsSaidWithItsPlace) {
    EXPECT_NE(problem_with("form: sawed").find("t.yaml:2:"), std::string::npos);
    EXPECT_NE(problem_with("form: rivem").find("did you mean riven?"), std::string::npos);
    EXPECT_NE(problem_with("setting: direct smalto").find("did you mean direct smalti?"), std::string::npos);
    EXPECT_NE(problem_with("setting: catching light").find("lean towards"), std::string::npos);
    EXPECT_NE(problem_with("lean by: 5").find("found lean by without lean towards"), std::string::npos);
    EXPECT_NE(problem_with("lean towards: up").find("expected {lamp: NAME}"), std::string::npos);
    EXPECT_NE(problem_with("lean towards: {lamp: nobody}").find("expected the name of a lamp"),
              std::string::npos);
    EXPECT_NE(problem_with("lean towards: {point: [0, 0, 0], lamp: x}").find("expected one or the other"),
              std::string::npos);
    EXPECT_NE(problem_with("fill: 70 %, recess: 1").find("found fill and recess"), std::string::npos);
    EXPECT_NE(problem_with("dome: -1").find("fields[1].dome"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
