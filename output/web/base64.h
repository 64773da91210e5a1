// Bytes as letters (RFC 4648, section 4), to lie inside a page.
#pragma once

#include <string>
#include <string_view>

namespace rakelight {

/// With padding, without line breaks.
std::string base64(std::string_view bytes);

}  // namespace rakelight
