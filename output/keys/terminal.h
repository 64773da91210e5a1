// Tables of keys on a terminal, within 80 columns.
#pragma once

#include <string>
#include <string_view>

namespace rakelight {

/// Every section with what it is, a few lines each.
std::string sections_on_terminal();

/// The keys of a section ("fields", "lamps.barn doors" or its last part alone), or what a key means wherever
/// it stands ("joint", "fields.joint"). \throws RequestError with the nearest word when there is neither.
std::string keys_on_terminal(std::string_view wanted);

}  // namespace rakelight
