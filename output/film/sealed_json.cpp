#include "output/film/sealed_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "output/film/checksum.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr std::string_view kSeal = ",\n  \"checksum\": \"";
constexpr std::string_view kEnd = "\"\n}\n";
constexpr std::string_view kOfFiles = "\"checksums\": {";

bool is_counted(const fs::path& file) {
    const std::string e = file.extension().string();
    return e == ".png" || e == ".exr" || e == ".svg" || e == ".pdf";
}

}  // namespace

std::string sealed_json(const std::string& json, const fs::path& folder) {
    Json all = Json::parse(json);
    Json sums = Json::object();
    for (const Json& name : all.at("files")) {
        const fs::path file = folder / name.get<std::string>();
        if (is_counted(file) && fs::is_regular_file(file)) try {
                sums[name.get<std::string>()] = file_checksum(file);
            } catch (const RequestError& error) {
                throw OutputError(error.what());
            }
    }
    all["checksums"] = sums;
    std::string text = all.dump(2, ' ', false, Json::error_handler_t::replace);
    text.resize(text.size() - 2);  // less its last line
    const std::string sum = checksum(text);
    return text.append(kSeal).append(sum).append(kEnd);
}

bool is_whole(std::string_view text) {
    const std::size_t tail = kSeal.size() + kChecksumDigits + kEnd.size();
    if (text.size() < tail) return false;
    const std::string_view body = text.substr(0, text.size() - tail), seal = text.substr(body.size());
    return seal.starts_with(kSeal) && seal.ends_with(kEnd) &&
           seal.substr(kSeal.size(), kChecksumDigits) == checksum(body);
}

std::vector<Damage> damage(const fs::path& json_file, bool must_be) {
    const std::string text = read_file(json_file);
    // One flipped byte cannot make both unreadable.
    if (!must_be && text.find(kSeal) == std::string::npos && text.find(kOfFiles) == std::string::npos)
        return {};
    if (!is_whole(text))
        return {{json_file, fmt::format("{} is damaged: it is not as it was written", json_file.string())}};
    std::vector<Damage> found;
    const Json all = Json::parse(text, nullptr, false);
    if (!all.is_object() || !all.contains("checksums")) return found;
    for (const auto& [name, sum] : all["checksums"].items()) {
        const fs::path file = json_file.parent_path() / name;
        if (fs::is_regular_file(file) && file_checksum(file) != sum)
            found.push_back(
                {file, fmt::format("{} is damaged, or not of the same run as {}: its checksum differs",
                                   file.string(), json_file.filename().string())});
    }
    return found;
}

}  // namespace rakelight
