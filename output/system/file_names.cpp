#include "output/system/file_names.h"

#include <fmt/format.h>

#include <map>

#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

// `word` itself, or with a dash and more of it after: any, or `of_digits` alone (and dashes between them).
bool is_of(std::string_view stem, std::string_view word, bool of_digits = false) {
    if (!stem.starts_with(word)) return false;
    stem.remove_prefix(word.size());
    if (stem.empty()) return true;
    return stem.front() == '-' &&
           (!of_digits || stem.find_first_not_of("-0123456789") == std::string_view::npos);
}

}  // namespace

std::optional<std::string_view> owner_of_stem(std::string_view stem) {
    if (stem == "laying" || stem == "joints" || stem == "pieces") return "lay";
    if (is_of(stem, "map", true) && stem != "map") return "lay";
    if (is_of(stem, "stock")) return "stock";
    if (is_of(stem, "board", true)) return "board";
    if (is_of(stem, "glare")) return "glare";
    if (is_of(stem, "take-off", true) || stem == "zones") return "take-off";
    if (is_of(stem, "portfolio") || stem == "proposal") return "portfolio";
    return std::nullopt;
}

void check_file_names(std::span<const std::string> names, std::string_view what) {
    std::map<std::string, std::string> seen;
    for (const std::string& name : names) {
        const std::string stem = file_stem(name);
        const auto [at, fresh] = seen.try_emplace(stem, name);
        if (!fresh)
            throw RequestError(
                fmt::format("{} {} and {} would be written to the same file {}.png; rename one of them", what,
                            at->second, name, stem));
    }
}

void check_picture_names(std::span<const std::string> names) {
    check_file_names(names, "pictures");
    for (const std::string& name : names)
        if (const auto owner = owner_of_stem(file_stem(name)))
            throw RequestError(
                fmt::format("picture {} would be written to {}.png, which is a file of rakelight {}; "
                            "give it another name",
                            name, file_stem(name), *owner));
}

}  // namespace rakelight
