// Photometric files that must be refused, each at its line and column and in helpful words.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "scene/light/photometric_file.h"
#include "scene/text/diagnostics.h"
#include "tests/support/photometric_samples.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

std::string refused(const std::string& text) {
    return refusal_of([&] { read_photometric_text(text, "t.ies"); });
}

struct Case {
    std::string text, said;
};

// The good file of which each case breaks something; lines 1 to 8.
const std::string kHead = "IES:LM-63-2019\n[TEST] 1\n[MANUFAC] none\n";
const std::string kNumbers = "1 -1 1 3 2 1 2 0 0 0\n1 1 10\n";
const std::string kData = "0 45 90\n0 90\n100 50 0\n90 40 0\n";

std::string with(const std::string& numbers, const std::string& data) {
    return kHead + "TILT=NONE\n" + numbers + data;
}

// Each case is refused in the words that it names.
void expect_refused(const std::vector<Case>& cases) {
    for (const Case& c : cases) {
        const std::string said = refused(c.text);
        EXPECT_NE(said.find(c.said), std::string::npos)
            << c.text << "\n-- said: " << said << "\n-- not: " << c.said;
    }
}

}  // namespace

TEST(PhotometricErrors, TheGoodFileIsRead) {
    EXPECT_EQ(refused(with(kNumbers, kData)), "");
}

TEST(PhotometricErrors, KeywordsAndTiltAreRefusedAtTheirLine) {
    expect_refused({
        {"", "t.ies: found an empty file"},
        {"IESNA:LM-63-2001\nTILT=NONE\n", "t.ies:1:1: found \"IESNA:LM-63-2001\", expected one of IESNA91"},
        {"IES:LM-63-2918\nTILT=NONE\n", "did you mean IES:LM-63-2019?"},
        {kHead + "1 2 3\n", "t.ies:4:1: found \"1 2 3\", expected a keyword in brackets"},
        {kHead + "[OTHER] x\n", "t.ies:4:1: found no line TILT="},
        {"IES:LM-63-2019\n[TEST 1\nTILT=NONE\n" + kNumbers + kData, "t.ies:2:1: found \"[TEST 1\""},
        {"IES:LM-63-2019\n[MORE] 1\nTILT=NONE\n" + kNumbers + kData, "t.ies:2:1: found [MORE] first"},
        {kHead + "TILT=lamp.tlt\n" + kNumbers + kData,
         "t.ies:4:6: found \"lamp.tlt\", expected NONE or INCLUDE"},
        {kHead + "TILT=\n" + kNumbers + kData, "t.ies:4:6: found \"\""},
        {"IESNA:LM-63-2002\nTILT=../../secret\n" + kNumbers + kData, "beside this one"},
        {kHead + "TILT=INCLUDE\n4\n2\n0 90\n1 1\n" + kNumbers + kData,
         "t.ies:5:1: found 4, expected the geometry"},
        {kHead + "TILT=INCLUDE\n1\n2\n90 0\n1 1\n" + kNumbers + kData, "t.ies:7:4: found 0 after 90"},
        {kHead + "TILT=INCLUDE\n1\n2\n0 90\n1 -1\n" + kNumbers + kData,
         "t.ies:8:3: found -1, expected tilt factor"},
    });
}

TEST(PhotometricErrors, NumbersAreRefusedAtTheirPlace) {
    expect_refused({
        {with("1 -1 1 3 2 1 2 0 0 O\n1 1 10\n", kData), "t.ies:5:20: found \"O\", expected a number"},
        {with("1 -1 1 3 2 1 2 0 0 nan\n1 1 10\n", kData), "found \"nan\", expected a number"},
        {with("1 -1 1 3 2 1 2 0 0 1e999\n1 1 10\n", kData), "found \"1e999\", expected a number"},
        {with("1 -1 1 3 2 1 2 0 0 0x1\n1 1 10\n", kData), "found \"0x1\", expected a number"},
        {with("0 -1 1 3 2 1 2 0 0 0\n1 1 10\n", kData), "t.ies:5:1: found 0, expected the count of lamps"},
        {with("1.5 -1 1 3 2 1 2 0 0 0\n1 1 10\n", kData), "expected the count of lamps: a whole number"},
        {with("1 -2 1 3 2 1 2 0 0 0\n1 1 10\n", kData), "t.ies:5:3: found -2, expected the lumens"},
        {with("1 0 1 3 2 1 2 0 0 0\n1 1 10\n", kData), "t.ies:5:3: found 0, expected the lumens"},
        {with("1 -1 0 3 2 1 2 0 0 0\n1 1 10\n", kData), "t.ies:5:6: found 0, expected the multiplier"},
        {with("1 -1 1 1 2 1 2 0 0 0\n1 1 10\n", kData), "t.ies:5:8: found 1, expected the count of vertical"},
        {with("1 -1 1 3 9999 1 2 0 0 0\n1 1 10\n", kData),
         "t.ies:5:10: found 9999, expected the count of horiz"},
        {with("1 -1 1 3 2 4 2 0 0 0\n1 1 10\n", kData),
         "t.ies:5:12: found 4, expected the type of photometry"},
        {with("1 -1 1 3 2 1 3 0 0 0\n1 1 10\n", kData), "t.ies:5:14: found 3, expected the unit"},
        {with("1 -1 1 3 2 1 2 -1 1 1\n1 1 10\n", kData), "t.ies:5:16: found an opening of -1 x 1 x 1"},
        {with("1 -1 1 3 2 1 2 2000 1 1\n1 1 10\n", kData), "expected the width of the opening"},
        {with("1 -1 1 3 2 1 2 0 0 0\n0 1 10\n", kData), "t.ies:6:1: found 0, expected the ballast factor"},
        {with("1 -1 1 3 2 1 2 0 0 0\n1 1 -10\n", kData), "t.ies:6:5: found -10, expected the input watts"},
        {with("1 -1 1 3 2 1 2 0 0 0\n1 1", ""),
         "t.ies:6:4: found the end of the file, expected the input watts"},
        {with("1 -1 1 3 2 1 2\n", ""), "found the end of the file, expected the width"},
    });
}

TEST(PhotometricErrors, AnglesAreRefusedAtTheirPlace) {
    expect_refused({
        {with(kNumbers, "0 90 45\n0 90\n1 1 1\n1 1 1\n"),
         "t.ies:7:6: found 45 after 90, expected vertical angles"},
        {with(kNumbers, "0 45 45\n0 90\n1 1 1\n1 1 1\n"), "t.ies:7:6: found 45 after 45"},
        {with(kNumbers, "0 45 80\n0 90\n1 1 1\n1 1 1\n"),
         "t.ies:7:1: found angles from 0 to 80, expected vertical"},
        {with(kNumbers, "10 45 90\n0 90\n1 1 1\n1 1 1\n"), "t.ies:7:1: found angles from 10 to 90"},
        {with(kNumbers, "0 45 90\n0 80\n1 1 1\n1 1 1\n"),
         "t.ies:8:1: found angles from 0 to 80, expected horiz"},
        {with(kNumbers, "0 45 90\n45 90\n1 1 1\n1 1 1\n"), "t.ies:8:1: found angles from 45 to 90"},
        {with(kNumbers, "0 45 90\n0 400\n1 1 1\n1 1 1\n"),
         "t.ies:8:3: found 400, expected horizontal angle 2 of 2"},
        {with("1 -1 1 3 1 1 2 0 0 0\n1 1 10\n", "0 45 90\n30\n1 1 1\n"),
         "t.ies:8:1: found angles from 30 to 30"},
        {with("1 -1 1 3 2 2 2 0 0 0\n1 1 10\n", "0 45 90\n0 45\n1 1 1\n1 1 1\n"),
         "horizontal angles of type B"},
        {with("1 -1 1 3 2 3 2 0 0 0\n1 1 10\n", "-45 0 90\n0 90\n1 1 1\n1 1 1\n"),
         "vertical angles of type A"},
        {with("1 -1 1 3 1 2 2 0 0 0\n1 1 10\n", "0 45 90\n0\n1 1 1\n"), "horizontal angles of type B"},
    });
}

TEST(PhotometricErrors, CandelaAreRefusedAtTheirPlace) {
    expect_refused({
        {with(kNumbers, "0 45 90\n0 90\n100 50 0\n90 -40 0\n"), "t.ies:10:4: found -40, expected candela"},
        {with(kNumbers, "0 45 90\n0 90\n100 50 0\n90 40\n"),
         "t.ies:10:6: found the end of the file, expected 6 candela values"},
        {with(kNumbers, "0 45 90\n0 90\n100 50 0\n90 40 0\n7\n"), "t.ies:11:1: found 1 more numbers"},
        {with(kNumbers, "0 45 90\n0 90\n0 0 0\n0 0 0\n"), "t.ies:10:5: found no candela above 0"},
    });
}

// A turn may leave out its last angle, which is the first again, but no more than that.
TEST(PhotometricErrors, AWholeTurnIsRefusedWithMoreLeftOutThanItsLastAngle) {
    expect_refused({
        {with(kNumbers, "0 45 90\n0 270\n1 1 1\n1 1 1\n"), "t.ies:8:1: found angles from 0 to 270"},
        {with("1 -1 1 2 4 1 2 0 0 0\n1 1 10\n", "0 90\n0 90 180 200\n1 1 1 1 1 1 1 1\n"),
         "t.ies:8:1: found angles from 0 to 200"},
    });
}

TEST(PhotometricErrors, AllBadWordsAtOnce) {
    const std::string said = refused(with(kNumbers, "0 45 90\n0 90\n1OO 50 0\n90 4O 0\n"));
    EXPECT_NE(said.find("t.ies:9:1"), std::string::npos) << said;
    EXPECT_NE(said.find("t.ies:10:4"), std::string::npos) << said;
}

TEST(PhotometricErrors, FilesThatAreNoneOrTooLong) {
    const auto said = [](const std::filesystem::path& path) {
        return refusal_of([&] { read_photometric_file(path); });
    };
    EXPECT_NE(said("/nowhere/lamp.ies").find("found no such file"), std::string::npos);
    EXPECT_NE(said("/").find("found no such file"), std::string::npos);
    EXPECT_NE(refused(std::string(kMostPhotometricBytes + 1, ' ')).find("over 4 MiB"), std::string::npos);
    EXPECT_NE(refused(kHead +
                      [] {
                          std::string labels;
                          for (int i = 0; i < 1001; ++i) labels += "[OTHER] x\n";
                          return labels;
                      }())
                  .find("within 1000 lines"),
              std::string::npos);
}

}  // namespace rakelight
