// Drawings read back as XML.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <pugixml.hpp>
#include <string>

namespace rakelight::test {

/// The layer of this title; an empty node where there is none.
inline pugi::xml_node layer(const pugi::xml_document& svg, const std::string& title) {
    for (const auto& g : svg.child("svg").children("g"))
        if (title == g.child("title").text().get()) return g;
    return {};
}

inline void expect_user_unit_is_a_millimetre(const pugi::xml_document& svg) {
    const auto root = svg.child("svg");
    const std::string width = root.attribute("width").value();
    EXPECT_TRUE(width.ends_with("mm"));
    EXPECT_TRUE(std::string(root.attribute("viewBox").value())
                    .starts_with("0 0 " + width.substr(0, width.size() - 2)));
}

}  // namespace rakelight::test
