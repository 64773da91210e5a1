#include "output/batch/layout_of_words.h"

#include <filesystem>

#include "output/film/scene_hash.h"
#include "output/scan/prepare.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {

std::uint64_t layout_hash_of(const std::vector<std::string>& words) {
    std::string file;
    std::string pieces;
    std::vector<std::string> changes;
    for (std::size_t i = 1; i < words.size(); ++i) {
        const std::string& word = words[i];
        const auto value_of = [&](const std::string& option) -> const std::string* {
            return words[i - 1] == option ? &word : nullptr;
        };
        if (const std::string* change = value_of("--set"))
            changes.push_back(*change);
        else if (const std::string* table = value_of("--pieces"))
            pieces = *table;
        else if (file.empty() && (word.ends_with(".yaml") || word.ends_with(".yml")) &&
                 std::filesystem::is_regular_file(word))
            file = word;
    }
    if (file.empty()) return 0;
    prepare_scan(file, changes);
    return source_hash(read_layout(file, pieces, changes));
}

}  // namespace rakelight
