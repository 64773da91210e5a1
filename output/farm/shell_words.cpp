#include "output/farm/shell_words.h"

#include "output/system/errors.h"

namespace rakelight {

std::string shell_quoted(std::string_view word) {
    if (word.find('\0') != word.npos) throw RequestError("found a NUL in a name, expected none");
    std::string quoted = "'";
    for (const char c : word)
        if (c == '\'')
            quoted += "'\\''";
        else
            quoted += c;
    return quoted + "'";
}

}  // namespace rakelight
