#include "output/film/json_head.h"

#include <filesystem>

#include "output/film/scene_hash.h"
#include "scene/model/layout.h"

namespace rakelight {

using Json = nlohmann::ordered_json;

MadeFrom made_from(const Layout& layout, const std::string& program) {
    return {program, std::filesystem::path(layout.sources.path).filename().string(),
            fnv1a(program, source_hash(layout))};
}

MadeFrom made_from(const std::string& layout_path, std::string_view layout_text, const std::string& program) {
    return {program, std::filesystem::path(layout_path).filename().string(),
            fnv1a(program, source_hash(layout_text))};
}

Json json_head(std::string_view kind, int version, const MadeFrom& from) {
    return {{"format", "rakelight " + std::string(kind)},
            {"version", version},
            {"program", from.program},
            {"layout_file", from.layout_file.empty() ? Json() : Json(from.layout_file)},
            {"scene_hash", from.scene_hash ? Json(hash_digits(*from.scene_hash)) : Json()}};
}

std::string json_text(Json head, const Json& body) {
    for (const auto& [key, value] : body.items()) head[key] = value;
    return head.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace rakelight
