#include "output/film/begun_passes.h"

#include <fmt/format.h>
#include <xxhash.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <fstream>
#include <memory>
#include <sstream>

#include "output/film/checksum.h"
#include "output/film/scene_hash.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kFormat = "rakelight passes, version 2";

fs::path file_of(const BegunPlace& place) {
    return place.folder / (place.stem + std::string(kBegunPasses));
}

// Which picture the sums are of, a thing a line; then comes how far it is in per cent, and the sums.
std::string head_of(const BegunPlace& place) {
    return fmt::format("{}\n{}, build {}\n{}\n", kFormat, place.notes.program, place.build,
                       hash_digits(place.notes.scene_hash));
}

class Hash {
  public:
    Hash() : state_(XXH3_createState(), XXH3_freeState) { XXH3_128bits_reset(state_.get()); }
    void add(const void* bytes, std::size_t count) { XXH3_128bits_update(state_.get(), bytes, count); }
    std::string digits() const {
        const XXH128_hash_t h = XXH3_128bits_digest(state_.get());
        return fmt::format("{:016x}{:016x}", h.high64, h.low64);
    }

  private:
    std::unique_ptr<XXH3_state_t, decltype(&XXH3_freeState)> state_;
};

// Opened behind the head and the line of per cent, when it is of this picture.
std::optional<std::ifstream> opened(const BegunPlace& place, int& percent) {
    std::ifstream file(file_of(place), std::ios::binary);
    std::string head, line;
    for (int i = 0; i < 3 && std::getline(file, line); ++i) head += line + "\n";
    if (!file || head != head_of(place) || !std::getline(file, line)) return {};
    const auto read = std::from_chars(line.data(), line.data() + line.size(), percent);
    if (read.ec != std::errc() || read.ptr != line.data() + line.size()) return {};
    return file;
}

// Whether the last digits of a file are the checksum of all before them, and these are `wanted` bytes.
bool is_sound(const fs::path& path, std::size_t wanted) {
    std::ifstream file(path, std::ios::binary);
    Hash hash;
    std::vector<char> some(1 << 20);
    for (std::size_t left = wanted; left > 0 && file;) {
        file.read(some.data(), static_cast<std::streamsize>(std::min(left, some.size())));
        hash.add(some.data(), static_cast<std::size_t>(file.gcount()));
        left -= static_cast<std::size_t>(file.gcount());
    }
    std::ostringstream rest;
    rest << file.rdbuf();
    return rest.str() == hash.digits();
}

}  // namespace

int begun_percent(const BegunPlace& place) {
    int percent = 0;
    return opened(place, percent) ? percent : 0;
}

bool take_up_passes(const BegunPlace& place, Passes& passes) {
    int percent = 0;
    std::optional<std::ifstream> file = opened(place, percent);
    if (!file) return false;
    auto wanted = static_cast<std::size_t>(file->tellg());
    passes.each_part([&](std::span<std::byte> part) { wanted += part.size(); });
    if (!is_sound(file_of(place), wanted)) {
        fmt::print(stderr, "Note: cannot use {}: it is damaged; its samples are traced again\n",
                   file_of(place).string());
        return false;
    }
    passes.each_part([&](std::span<std::byte> part) {
        file->read(reinterpret_cast<char*>(part.data()), static_cast<std::streamsize>(part.size()));
    });
    return true;
}

void keep_passes(const BegunPlace& place, Passes& passes) {
    SafeFile file(file_of(place));
    Hash hash;
    const auto put = [&](const void* bytes, std::size_t count) {
        hash.add(bytes, count);
        file.write_at(bytes, count, file.size());
    };
    const std::string head =
        head_of(place) + fmt::format("{}\n", std::max(1, static_cast<int>(100 * passes.share())));
    put(head.data(), head.size());
    passes.each_part([&](std::span<std::byte> part) { put(part.data(), part.size()); });
    const std::string digits = hash.digits();
    file.write_at(digits.data(), digits.size(), file.size());
    file.commit();
}

}  // namespace rakelight
