// What a processor must have, bit by bit.
#include "output/command_line/processor.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

// Bits as in the Intel manual: leaf 7 EBX: BMI1 3, AVX2 5, BMI2 8; leaf 1 ECX: FMA 12, MOVBE 22, OSXSAVE 27,
// AVX 28, F16C 29; leaf 80000001 ECX: LZCNT 5; XCR0: SSE 1, AVX 2.
TEST(Processor, NamesWhatIsMissing) {
    const ProcessorSays all{1u << 12 | 1u << 22 | 1u << 27 | 1u << 28 | 1u << 29, 1u << 3 | 1u << 5 | 1u << 8,
                            1u << 5, 6};
    EXPECT_EQ(missing_instructions(all), nullptr);
    const auto without = [&](auto change) {
        ProcessorSays says = all;
        change(says);
        return std::string(missing_instructions(says));
    };
    EXPECT_EQ(without([](ProcessorSays& s) { s.leaf_7_ebx &= ~(1u << 5); }), "AVX2");
    EXPECT_EQ(without([](ProcessorSays& s) { s = {0, 0, 0, 0}; }), "AVX2");
    EXPECT_EQ(without([](ProcessorSays& s) { s.leaf_1_ecx &= ~(1u << 12); }), "FMA");
    EXPECT_EQ(without([](ProcessorSays& s) { s.leaf_7_ebx &= ~(1u << 8); }), "BMI2");
    EXPECT_EQ(without([](ProcessorSays& s) { s.leaf_80000001_ecx = 0; }), "LZCNT");
    EXPECT_TRUE(without([](ProcessorSays& s) { s.xcr0 = 2; }).find("operating system") != std::string::npos);
    EXPECT_EQ(missing_instructions(this_processor()), nullptr) << "this test could not run else";
}

}  // namespace
}  // namespace rakelight
