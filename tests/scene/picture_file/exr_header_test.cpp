// Headers of OpenEXR files, byte by byte as the file layout on openexr.com says.
#include "scene/picture_file/exr_header.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <fstream>
#include <string>

#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using namespace std::string_literals;

std::string number(std::uint32_t n) {
    std::string bytes;
    for (int k = 0; k < 4; ++k) bytes += static_cast<char>(n >> (8 * k));
    return bytes;
}

std::string attribute(const std::string& name, const std::string& type, const std::string& value) {
    return name + '\0' + type + '\0' + number(static_cast<std::uint32_t>(value.size())) + value;
}

bool fits(const std::string& attributes) {
    const test::Folder folder;
    const auto path = folder / "a.exr";
    std::ofstream(path, std::ios::binary) << "v/1\x01"s
                                          << "\x02\0\0\0"s << attributes << '\0' << std::string(64, 'x');
    return headers_fit(path);
}

TEST(ExrHeader, AttributesAreAsLongAsTheirTypes) {
    const std::string place(8, '\0');
    EXPECT_TRUE(fits(attribute("screenWindowCenter", "v2f", place) + attribute("owner", "string", "nobody")));
    // The library reads eight bytes all the same, then the rest as names and lengths.
    EXPECT_FALSE(fits(attribute("screenWindowCenter", "v2f", "") + attribute("owner", "string", "nobody")));
    EXPECT_FALSE(fits(attribute("dataWindow", "box2i", std::string(12, '\0'))));
    EXPECT_TRUE(fits(attribute("ours", "a type of our own", "anything")));
}

TEST(ExrHeader, NothingIsLongerThanTheFile) {
    std::string owner = attribute("owner", "string", "nobody");
    EXPECT_TRUE(fits(owner));
    owner.replace(owner.find("\x06\0\0\0"s), 4, number(0x7fffffff));
    EXPECT_FALSE(fits(owner));
}

TEST(ExrHeader, StringsAndPreviewsKeepToTheirOwnLengths) {
    EXPECT_TRUE(fits(attribute("views", "stringvector", number(4) + "left" + number(5) + "right")));
    EXPECT_FALSE(fits(attribute("views", "stringvector", number(0x7fffffff) + "left")));
    EXPECT_FALSE(fits(attribute("views", "stringvector", number(4) + "left" + "rest")));
    EXPECT_TRUE(fits(attribute("preview", "preview", number(2) + number(1) + std::string(8, 'p'))));
    EXPECT_FALSE(
        fits(attribute("preview", "preview", number(60'000) + number(60'000) + std::string(8, 'p'))));
}

}  // namespace
}  // namespace rakelight
