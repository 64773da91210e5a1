#include "output/batch/pictures_taken.h"

#include <fmt/format.h>

#include <filesystem>

namespace rakelight {

std::string PicturesTaken::take(const std::string& folder, const std::string& stem, const std::string& place,
                                const std::vector<std::string>& words) {
    const std::string file = (std::filesystem::path(folder) / stem).lexically_normal().string();
    const auto [at, is_free] = jobs_.try_emplace(file, Job{place, words});
    if (is_free || at->second.words == words) return {};
    return fmt::format("{}: {}.png is written by {} as well, expected --into another folder for one of them",
                       place, file, at->second.place);
}

}  // namespace rakelight
