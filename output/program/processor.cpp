// Compiled for every x86-64, and run before anything else of the program: see CMakeLists.txt.
#include "output/program/processor.h"

#include <cpuid.h>
#include <string.h>
#include <unistd.h>

namespace rakelight {

namespace {

unsigned extended_control_register_0() {
    unsigned low = 0, high = 0;
    __asm__ volatile("xgetbv" : "=a"(low), "=d"(high) : "c"(0));
    return low;
}

void say(const char* text) {
    if (write(STDERR_FILENO, text, strlen(text)) < 0) return;  // nobody listens
}

// Before the constructors of every other file, which are compiled for AVX2.
__attribute__((constructor(101))) void refuse_older_processors() {
    const char* missing = missing_instructions(this_processor());
    if (!missing) return;
    say("rakelight: this processor lacks ");
    say(missing);
    say(", which this program is compiled for (x86-64-v3: most of 2015 and later have it)\n");
    _exit(1);
}

}  // namespace

ProcessorSays this_processor() {
    ProcessorSays says{0, 0, 0, 0};
    unsigned a = 0, b = 0, c = 0, d = 0;
    if (__get_cpuid(1, &a, &b, &c, &d)) says.leaf_1_ecx = c;
    if (__get_cpuid_count(7, 0, &a, &b, &c, &d)) says.leaf_7_ebx = b;
    if (__get_cpuid(0x80000001, &a, &b, &c, &d)) says.leaf_80000001_ecx = c;
    if (says.leaf_1_ecx >> 27 & 1u) says.xcr0 = extended_control_register_0();
    return says;
}

const char* missing_instructions(const ProcessorSays& says) {
    const auto has = [](unsigned word, unsigned bit) { return (word >> bit & 1u) != 0; };
    if (!has(says.leaf_7_ebx, 5)) return "AVX2";
    if (!has(says.leaf_1_ecx, 28)) return "AVX";
    if (!has(says.leaf_1_ecx, 27) || (says.xcr0 & 6u) != 6u)
        return "AVX registers kept by the operating system";
    if (!has(says.leaf_1_ecx, 12)) return "FMA";
    if (!has(says.leaf_1_ecx, 22)) return "MOVBE";
    if (!has(says.leaf_1_ecx, 29)) return "F16C";
    if (!has(says.leaf_7_ebx, 3)) return "BMI1";
    if (!has(says.leaf_7_ebx, 8)) return "BMI2";
    if (!has(says.leaf_80000001_ecx, 5)) return "LZCNT";
    return nullptr;
}

}  // namespace rakelight
