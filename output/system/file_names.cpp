#include "output/system/file_names.h"

#include <fmt/format.h>

#include <array>
#include <map>
#include <regex>

#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

std::optional<std::string_view> owner_of_stem(std::string_view stem) {
    static const std::array<std::pair<std::regex, std::string_view>, 6> kOwners{{
        {std::regex("laying|joints|pieces|map-[0-9]+"), "lay"},
        {std::regex("stock(-.*)?"), "stock"},
        {std::regex("board(-[0-9]+-[0-9]+)?"), "board"},
        {std::regex("glare(-.*)?"), "glare"},
        {std::regex("(take-off(-[0-9]+)?)|zones"), "take-off"},
        {std::regex("portfolio(-.*)?|proposal"), "portfolio"},
    }};
    for (const auto& [files, command] : kOwners)
        if (std::regex_match(stem.begin(), stem.end(), files)) return command;
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
