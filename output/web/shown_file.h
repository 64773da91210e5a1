// Metadata of the files in a folder: what a JSON that a command wrote says of the pictures beside it, their
// titles and the lines of their labels.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "output/web/run_folder.h"

namespace rakelight {

/// A file that says what others are.
struct MetadataFile {
    std::string file;
    std::string word;  ///< what it is: record, board, glare ..
    nlohmann::ordered_json json;
    std::vector<std::string> names;  ///< of the files it speaks of, relative to the folder
};

/// The text under a key, empty when there is none.
std::string text_at(const nlohmann::ordered_json& json, const char* key);

/// A file name as a title: "glare-seated" becomes "Glare seated".
std::string spoken(std::string_view name);

/// Extension in small letters, with its dot.
std::string lower_extension(const std::string& file);

/// A picture with all that its metadata say; `said` may be null.
ShownFile shown_file(const std::string& file, const MetadataFile* said);

}  // namespace rakelight
