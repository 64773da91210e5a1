// Quoting for the shell (POSIX.1-2017, Shell Command Language 2.2.2): a word comes out of it as it went in.
#pragma once

#include <string>
#include <string_view>

namespace rakelight {

/// One word in single quotes, whatever stands in it: blanks, quotes, newlines, dollars. \throws RequestError
/// for a NUL, which no argument of a program can hold.
std::string shell_quoted(std::string_view word);

}  // namespace rakelight
