// What a drawing that cannot be read says, what a drawing that can be read leaves out, and how long either
// may take.
#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "scene/drawing/svg/reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/refusal.h"
#include "tests/support/svg_samples.h"

namespace rakelight {
namespace {

std::string refused(const std::string& text) {
    return refusal_of([&] { read_svg_text(text, "t.svg"); });
}

void expect_said(const std::string& text, const std::string& said) {
    const std::string all = refused(text);
    EXPECT_NE(all.find(said), std::string::npos) << "expected: " << said << "\nsaid: " << all;
}

TEST(SvgErrors, BrokenFiles) {
    expect_said("", "t.svg: found no elements");
    expect_said("   \n", "t.svg: found no elements");
    expect_said("<svg width='1' height='1'>\n <g>\n</svg>", "t.svg:3:");
    expect_said("<svg width='1' height='1'>\n <g>\n</svg>", "found broken XML");
    expect_said("<svg width=1/>", "t.svg:1:");
    expect_said("<html/>", "t.svg:1:2: found the root element \"html\", expected svg");
    expect_said("\x1f\x8b stuff", "compressed");
    expect_said("\xff\xfe<\0s\0", "UTF-8");
    expect_said("<svg/>", "found no size");
    expect_said("<svg width='0' height='4'/>", "without area");
    expect_said("<svg width='10em' height='4em'/>", "found no size");
    expect_said(page("<path d='M 1 1 L 2 2 L 3 x'/>"),
                "t.svg:2:2: path: found path data that break off near command 2");
    expect_said(page("<path id='wave' d='L 2 2'/>"), "t.svg:2:2: wave: found path data that break off");
    expect_said(page("<path d='M 0 0 L 1e308 1e308 1e308 1e99'/>"), "off the map");
    expect_said(page("<rect width='-5' height='5'/>"), "rect: found width=\"-5\"");
    expect_said(page("<rect width='50%' height='5'/>"), "found width=\"50%\"");
    expect_said(page("<polygon points='1 2 3'/>"), "break off after the 1.");
    expect_said(page("<g transform='turn(5)'/>"), "found transform=\"turn(5)\"");
    expect_said(page("<use xlink:href='#gone'/>"), "found \"#gone\", expected the id of an element");
    expect_said("<svg viewBox='0 0 1'/>", "found no size");
    expect_said("<svg width='5' height='5' viewBox='0 0 1'/>", "expected four numbers");
    // All at once.
    const std::string both = refused(page("<path d='x'/>\n<circle r='-1'/>"));
    EXPECT_NE(both.find("t.svg:2:2"), std::string::npos) << both;
    EXPECT_NE(both.find("t.svg:3:2"), std::string::npos) << both;
}

TEST(SvgErrors, NothingIsUnfoldedOrFetched) {
    std::string bomb = "<!DOCTYPE svg [<!ENTITY a0 'M0 0L1 1'>";
    for (int i = 1; i < 40; ++i) {
        const std::string before = "&a" + std::to_string(i - 1) + ";";
        bomb += "<!ENTITY a" + std::to_string(i) + " '" + before + before + "'>";
    }
    bomb += "<!ENTITY file SYSTEM 'file:///etc/passwd'>]>" + page("<path d='&a39;'/><path d='&file;'/>");
    expect_said(bomb, "path data that break off");
    EXPECT_EQ(refused(bomb).find("root:"), std::string::npos);
}

TEST(SvgErrors, UseThatUsesItselfAndUsesThatMultiply) {
    expect_said(page("<g id='a'><use xlink:href='#a'/></g>"), "one that uses itself");
    expect_said(page("<use id='a' xlink:href='#b'/><use id='b' xlink:href='#a'/>"), "one that uses itself");
    std::string doubling = "<defs><path id='p0' d='M0 0L1 1'/>";
    for (int i = 1; i < 40; ++i) {
        const std::string one = "<use xlink:href='#p" + std::to_string(i - 1) + "'/>";
        doubling += "<g id='p" + std::to_string(i) + "'>" + one + one + "</g>";
    }
    expect_said(page(doubling + "</defs><use xlink:href='#p39'/>"), "more than 200000 elements");
}

TEST(SvgErrors, DeepAndLongFilesEndSoon) {
    const auto start = std::chrono::steady_clock::now();
    std::string deep;
    for (int i = 0; i < 100'000; ++i) deep += "<g>";
    expect_said(page(deep), "broken XML");
    for (int i = 0; i < 100'000; ++i) deep += "</g>";
    expect_said(page(deep), "deep");
    // A million points are read and thinned: a line of a million parts is a line.
    std::string data = "M0 0";
    for (int i = 1; i <= 1'000'000; ++i) {
        data += 'L';
        data += std::to_string(i / 20000.0);
        data += " 40";
    }
    const Drawing line = read_svg_text(page("<path d='" + data + "'/>"), "t.svg");
    EXPECT_LE(line.paths.at(0).lines.at(0).points_mm.size(), 4u);
    // Three times as many are refused.
    expect_said(page("<path d='" + data + data + data + "'/>"), "more than");
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(30));
}

TEST(SvgErrors, WhatIsLeftOutIsTold) {
    const Drawing d = read_svg_text(
        page("<style>path{fill:none}</style><text>a</text>\n<text>b</text><image/><linearGradient/>\n"
             "<g clip-path='url(#c)' style='filter:url(#f)'><path style='fill:red' d='M0 0L9 9L9 0'/></g>"
             "<sparkle/><use href='other.svg#x'/><svg width='3em' height='4'/><title>t</title><defs/>"),
        "t.svg");
    std::string all;
    for (const std::string& warning : d.warnings) all += warning + "\n";
    for (const char* said :
         {"t.svg:2:2: style: left out, because style sheets", "t.svg:2:32: text: left out 2 times",
          "t.svg:3:16: image: left out", "linearGradient: left out", "clip-path: left out",
          "filter: left out", "the fill of an open path: left out", "sparkle: left out",
          "use of another file: left out", "width=\"3em\": left out"})
        EXPECT_NE(all.find(said), std::string::npos) << said << "\n" << all;
    EXPECT_EQ(all.find("title"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
