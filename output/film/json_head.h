// What every JSON file of the program begins with: format, version, program, layout_file, scene_hash.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

namespace rakelight {

struct Layout;

/// What a file was made by and from.
struct MadeFrom {
    std::string program;                      ///< name and version
    std::string layout_file;                  ///< name without folders; empty = no layout was read
    std::optional<std::uint64_t> scene_hash;  ///< see scene_hash.h; none = no layout was read
};

/// `layout` as it was read: the hash of its file, of those read with it, and of the program.
/// \throws RequestError when one of them can no longer be read.
MadeFrom made_from(const Layout& layout, const std::string& program);

/// As a layout file that is read for its stock alone.
MadeFrom made_from(const std::string& layout_path, std::string_view layout_text, const std::string& program);

/// The keys that every JSON file begins with. `kind` follows "rakelight " in `format`; `version` grows when a
/// key changes its name or meaning. What is missing is null.
nlohmann::ordered_json json_head(std::string_view kind, int version, const MadeFrom& from);

/// `head`, then the keys of `body`, as text: two spaces a step, ending in a newline.
std::string json_text(nlohmann::ordered_json head, const nlohmann::ordered_json& body);

}  // namespace rakelight
