// Text on its way into HTML.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace rakelight {

/// Text that stands for itself between tags and inside quoted attributes. Bytes that are not UTF-8 stay as
/// they are; control characters other than tab and line feed become blanks.
std::string html_text(std::string_view text);

/// JSON for a script element: nothing in it can end the element.
std::string script_json(const nlohmann::ordered_json& json);

/// A path as a relative link: every byte but letters, digits and "-_.~/" is percent-encoded (RFC 3986).
std::string link_to(std::string_view path);

/// The line that marks what was made before `layout_file` was last changed; nothing when that is empty.
std::string older_mark(const std::string& layout_file);

/// `text` with every @word@ replaced by what `words` say; unknown words stay.
std::string filled_in(std::string_view text,
                      const std::vector<std::pair<std::string_view, std::string>>& words);

}  // namespace rakelight
