// Reading a layout that was damaged at random ends in a layout or a LayoutError, never otherwise.
#include <gtest/gtest.h>

#include <cstdint>
#include <iterator>
#include <string>
#include <string_view>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/damage.h"
#include "tests/support/layout_samples.h"

namespace rakelight {
namespace {

/// Multiplicative generator with modulus 2^64 (L'Ecuyer 1999); the high bits are the good ones.
class Dice {
  public:
    size_t below(size_t n) {
        state_ = state_ * 2862933555777941757u + 3037000493u;
        return static_cast<size_t>((state_ >> 33) % n);
    }

  private:
    std::uint64_t state_ = 20;
};

constexpr std::string_view kScraps[] = {"[",          "]",        "{",      "}",
                                        ": ",         ", ",       "-",      "- ",
                                        "\n",         "\n  ",     "#",      "\"",
                                        "'",          "*a",       "&a",     "!!x ",
                                        "|\n",        ">",        "%",      "~",
                                        "0",          "-1",       "1e308",  ".inf",
                                        "nan",        "? ",       "\t",     "---\n",
                                        "mm",         "null",     "\xff",   "\xc3",
                                        "\x01",       "@",        "`",      "{}",
                                        "[]",         "K",        "in",     "\r",
                                        "<<",         "size: ",   "1e-300", "99999999999999999999",
                                        "name: foam", "halo: 2\n"};

std::string damaged(std::string text, Dice& dice) {
    for (size_t cuts = 1 + dice.below(3); cuts > 0 && !text.empty(); --cuts) {
        const size_t at = dice.below(text.size());
        const size_t length = 1 + dice.below(dice.below(4) == 0 ? 200 : 6);
        switch (dice.below(8)) {
            case 0:
                text[at] = static_cast<char>(dice.below(256));
                break;
            case 1:
                text.erase(at, length);
                break;
            case 2:
                text.insert(at, kScraps[dice.below(std::size(kScraps))]);
                break;
            case 3:
                text.replace(at, length, kScraps[dice.below(std::size(kScraps))]);
                break;
            case 4:
                text.insert(dice.below(text.size()), text.substr(at, length));
                break;
            default:  // milder, so that some layouts still read
                if (const size_t digit = text.find_first_of("0123456789", at); digit != text.npos)
                    text[digit] = static_cast<char>('0' + dice.below(10));
        }
    }
    return text;
}

TEST(LayoutMutation, OnlyLayoutErrorsEscape) {
    Dice dice;
    const auto [read, refused] = read_damaged(
        4000,
        [&](int round) { return damaged(std::string(round % 4 == 3 ? kLightLayout : kFullLayout), dice); },
        [](const std::string& text) {
            const Layout layout = read_layout_text(text, "damaged.yaml");
            EXPECT_GT(layout.panel.width_mm, 0);
            EXPECT_FALSE(layout.fields.empty());
            EXPECT_FALSE(layout.views.pictures.empty());
        });
    // Both ways out must have been tried, or the damage is too strong or too weak to mean anything.
    EXPECT_GT(read, 100);
    EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace rakelight
