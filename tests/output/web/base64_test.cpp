// Judges: the test vectors of RFC 4648, section 10.
#include "output/web/base64.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

TEST(Base64, VectorsOfTheStandard) {
    EXPECT_EQ(base64(""), "");
    EXPECT_EQ(base64("f"), "Zg==");
    EXPECT_EQ(base64("fo"), "Zm8=");
    EXPECT_EQ(base64("foo"), "Zm9v");
    EXPECT_EQ(base64("foob"), "Zm9vYg==");
    EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

TEST(Base64, HighBytesAreNotSigned) {
    EXPECT_EQ(base64("\xff\xff\xff"), "////");  // 24 ones: four times letter 63 of the standard's table
}

}  // namespace
}  // namespace rakelight
