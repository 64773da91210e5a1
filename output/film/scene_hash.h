// One number for everything a picture depends on, so that parts rendered on several machines can be told to
// belong together. FNV-1a, 64 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv): not a seal against ill will.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "scene/model/views.h"

namespace rakelight {

struct Layout;

/// FNV-1a of raw bytes, going on from `state`.
constexpr std::uint64_t fnv1a(std::string_view bytes, std::uint64_t state = 0xcbf29ce484222325u) {
    for (const char c : bytes) state = (state ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
    return state;
}

/// Of the bytes of the layout file and of every file it was read with, in order; not of their names, which
/// differ between machines. \throws RequestError when one can no longer be read.
std::uint64_t source_hash(const Layout& layout);

/// The same of a layout file that is read alone, from its text.
std::uint64_t source_hash(std::string_view layout_text);

/// The scene hash: `sources` as of source_hash, version of the program, and the picture as it is rendered
/// (size, error and samples after any change on the command line). How it is split among machines is left
/// out.
std::uint64_t scene_hash(std::uint64_t sources, std::string_view version, const Picture& picture);

/// Sixteen lower-case hexadecimal digits.
std::string hash_digits(std::uint64_t hash);

}  // namespace rakelight
