// Text damaged as files are: bytes changed, cut out, put in, digits altered; and what must become of it.
#pragma once

#include <gtest/gtest.h>

#include <span>
#include <string>
#include <string_view>

#include "materials/maths/hash.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

/// `text` with one to three damages; `scraps`: what may be put in.
inline std::string damaged(std::string text, std::span<const std::string_view> scraps, Rng& rng) {
    const auto below = [&](std::size_t n) {
        return static_cast<std::size_t>(rng.within(0, static_cast<double>(n)));
    };
    for (std::size_t cuts = 1 + below(3); cuts > 0; --cuts) {
        const std::size_t at = below(text.size());
        const std::string scrap(scraps[below(scraps.size())]);
        switch (below(5)) {
            case 0:
                text[at] = static_cast<char>(below(256));
                break;
            case 1:
                text.erase(at, 1 + below(20));
                break;
            case 2:
                text.insert(at, scrap);
                break;
            case 3:
                text.replace(at, 1 + below(6), scrap);
                break;
            default:
                if (const auto digit = text.find_first_of("0123456789", at); digit != text.npos)
                    text[digit] = static_cast<char>('0' + below(10));
        }
        if (text.empty()) text.push_back(' ');
    }
    return text;
}

/// How many damaged texts were read, and how many refused.
struct DamageTold {
    int read = 0, refused = 0;
};

/// Lets `read(text)` read what `damaged_text(round)` gives, so many times: it is to end well, which it judges
/// itself, or in a LayoutError that says something.
template <class Text, class Read>
DamageTold read_damaged(int rounds, Text&& damaged_text, Read&& read) {
    DamageTold told;
    for (int round = 0; round < rounds && !testing::Test::HasFatalFailure(); ++round) {
        const std::string text = damaged_text(round);
        try {
            read(text);
            ++told.read;
        } catch (const LayoutError& error) {
            EXPECT_FALSE(error.problems().empty());
            ++told.refused;
        } catch (const std::exception& error) {
            ADD_FAILURE() << "round " << round << ": " << error.what() << "\n" << text;
            break;
        }
    }
    return told;
}

}  // namespace rakelight
