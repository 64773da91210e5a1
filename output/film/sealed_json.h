// The JSON that lists finished files, with the checksum of each and, on its last line, one of its own.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace rakelight {

/// `json`, an object as `json_text` writes it, with `checksums` of those of its `files` that lie in `folder`
/// and are not made to be edited (PNG, EXR, SVG, PDF), and its own `checksum`. \throws OutputError when one
/// cannot be read.
std::string sealed_json(const std::string& json, const std::filesystem::path& folder);

/// Whether `text` is a sealed JSON, to the byte as it was written.
bool is_whole(std::string_view text);

struct Damage {
    std::filesystem::path file;
    std::string what;  ///< a sentence that begins with the file
};

/// What is wrong with the files that a sealed JSON speaks of and with itself; files that are gone are not
/// counted. Nothing of a file that was never sealed, unless `must_be` says that it must. \throws RequestError
/// when it cannot be read.
std::vector<Damage> damage(const std::filesystem::path& json_file, bool must_be);

}  // namespace rakelight
