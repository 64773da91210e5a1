#include "output/film/scene_hash.h"

#include <fmt/format.h>

#include <bit>

#include "output/system/safe_file.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

// Eight bytes, lowest first, whatever the machine's own order.
std::uint64_t add(std::uint64_t state, std::uint64_t number) {
    char bytes[8];
    for (int i = 0; i < 8; ++i) bytes[i] = static_cast<char>(number >> (8 * i));
    return fnv1a({bytes, 8}, state);
}

std::uint64_t add(std::uint64_t state, double number) {
    return add(state, std::bit_cast<std::uint64_t>(number));
}

std::uint64_t add(std::uint64_t state, int number) {
    return add(state, static_cast<std::uint64_t>(static_cast<std::int64_t>(number)));
}

// The length goes first, so that "ab" + "c" is not "a" + "bc".
std::uint64_t add(std::uint64_t state, std::string_view text) {
    return fnv1a(text, add(state, static_cast<std::uint64_t>(text.size())));
}

}  // namespace

std::uint64_t source_hash(std::string_view layout_text) {
    return add(fnv1a({}), layout_text);
}

std::uint64_t source_hash(const Layout& layout) {
    std::uint64_t h = source_hash(read_file(layout.sources.path));
    for (const std::string& file : layout.sources.files) h = add(h, std::string_view(read_file(file)));
    for (const std::string& change : layout.sources.changes) h = add(h, std::string_view(change));
    return h;
}

std::uint64_t scene_hash(std::uint64_t sources, std::string_view version, const Picture& picture) {
    // Every member by its name: a new one breaks this line, and is hashed or, as the place, left out on
    // purpose.
    const auto& [name, viewpoint, light, lamps, width_px, height_px, ev, exposure, error, most_samples,
                 grain_seed, place] = picture;
    std::uint64_t h = add(fnv1a({}), sources);
    h = add(h, version);
    h = add(h, std::string_view(name));
    h = add(h, std::string_view(viewpoint));
    h = add(h, static_cast<std::uint64_t>(lamps.size()));
    for (const auto& lamp : lamps) h = add(h, std::string_view(lamp));
    h = add(h, width_px);
    h = add(h, height_px);
    h = add(h, static_cast<std::uint64_t>(ev.has_value()));
    h = add(h, ev.value_or(0));
    h = add(h, std::string_view(exposure));
    h = add(h, error);
    if (!light.empty()) h = add(h, std::string_view(light));
    if (grain_seed) h = add(add(h, std::string_view("grain seed")), *grain_seed);
    return add(h, most_samples);
}

std::string hash_digits(std::uint64_t hash) {
    return fmt::format("{:016x}", hash);
}

}  // namespace rakelight
