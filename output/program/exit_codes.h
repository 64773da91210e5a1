// Exit codes of the program, as main.cpp ends with them and as help and man pages list them.
#pragma once

#include <array>

namespace rakelight {

struct ExitCode {
    int code;
    const char* meaning;
};

inline constexpr std::array<ExitCode, 5> kExitCodes{{
    {0, "Done."},
    {1, "Something unforeseen, or not enough memory, or a processor without AVX2."},
    {2, "The command line, a layout or a file given to the program is wrong. Nothing is written."},
    {3, "A file could not be read or written."},
    {130, "Stopped by Ctrl-C. Rows of pictures that were done are kept."},
}};

}  // namespace rakelight
