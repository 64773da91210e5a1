// Whether a processor has the instructions of x86-64-v3, which all else is compiled for. Of plain C alone: a
// function of the standard library that is compiled here could be the copy that the linker keeps, or that of
// another file here. Bits: Intel 64 and IA-32 Architectures Software Developer's Manual, volume 2A, CPUID,
// and volume 1, 13.3 (XCR0); levels: x86-64 psABI, table 3.1.
#pragma once

namespace rakelight {

/// What a processor says of itself. A register that it does not have is 0.
struct ProcessorSays {
    unsigned leaf_1_ecx;
    unsigned leaf_7_ebx;
    unsigned leaf_80000001_ecx;
    unsigned xcr0;  ///< which registers the operating system keeps
};

/// Of this machine.
ProcessorSays this_processor();

/// The first instruction set of x86-64-v3 beyond x86-64-v2 that is missing, "AVX2" before all others; null =
/// none.
const char* missing_instructions(const ProcessorSays& says);

}  // namespace rakelight
