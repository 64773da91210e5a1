// How the values of a film lie in the channels of a file: one description for writing and reading.
#pragma once

#include <cstdint>
#include <string>
#include <type_traits>
#include <vector>

#include "renderer/film.h"

namespace rakelight {

/// One channel: `stride` values of 4 bytes apart, from `first`, the film's first pixel.
template <class Value>
struct Channel {
    std::string name;
    Value* first = nullptr;
    std::size_t stride = 1;
};

/// One part of the file; all its channels hold the same kind of number.
template <class Value>
struct FilmPart {
    std::string name;
    std::vector<Channel<Value>> channels;
};

namespace film_detail {

// Film or const Film, float or const float to match.
template <class F, class Value>
using Like = std::conditional_t<std::is_const_v<F>, const Value, Value>;

/// Three channels of interleaved values of a film; their `first` is null where there are none.
template <class Value, class Vector>
std::vector<Channel<Value>> channels_of(const char* const (&names)[3], Vector& values) {
    std::vector<Channel<Value>> channels;
    for (int i = 0; i < 3; ++i) channels.push_back({names[i], values.empty() ? nullptr : &values[0][i], 3});
    return channels;
}

}  // namespace film_detail

/// The parts of real numbers, in the order of the file but for "numbers".
template <class F>
std::vector<FilmPart<film_detail::Like<F, float>>> real_parts(F& film) {
    using Value = film_detail::Like<F, float>;
    std::vector<FilmPart<Value>> parts;
    for (std::size_t g = 0; g < film.groups.size(); ++g)
        parts.push_back({"light " + std::to_string(g + 1) + ": " + film.groups[g],
                         film_detail::channels_of<Value>({"X", "Y", "Z"}, film.xyz[g])});
    auto& f = film.features;
    FilmPart<Value> features{"features", {{"depth_mm", f.depth_mm.data(), 1}}};
    for (auto& c : film_detail::channels_of<Value>({"normal.x", "normal.y", "normal.z"}, f.normal))
        features.channels.push_back(c);
    features.channels.push_back({"first_surface_share", f.first_surface_share.data(), 1});
    parts.push_back(features);
    parts.push_back({"error", {{"error_cd_per_m2", film.error.data(), 1}}});
    auto& guide = film.guide;
    if (guide.is_there) {
        FilmPart<Value> part{"for filters",
                             {{"half.cd_per_m2", guide.half_cd_per_m2.data(), 1},
                              {"half.first_surface_cd_per_m2", guide.half_first_surface_cd_per_m2.data(), 1},
                              {"half.indirect_cd_per_m2", guide.half_indirect_cd_per_m2.data(), 1}}};
        for (auto& c :
             film_detail::channels_of<Value>({"indirect.X", "indirect.Y", "indirect.Z"}, guide.indirect))
            part.channels.push_back(c);
        for (auto& c : film_detail::channels_of<Value>({"reflectance.X", "reflectance.Y", "reflectance.Z"},
                                                       guide.reflectance))
            part.channels.push_back(c);
        parts.push_back(part);
    }
    return parts;
}

/// The part of whole numbers, none negative.
template <class F>
FilmPart<film_detail::Like<F, std::int32_t>> number_part(F& film) {
    return {"numbers",
            {{"piece", film.features.piece.data(), 1},
             {"material", film.features.material.data(), 1},
             {"samples", film.samples.data(), 1}}};
}

/// The part of filtered light, packed; of which no film keeps the values.
inline FilmPart<const float> filtered_part() {
    return {"filtered", {{"X", nullptr, 3}, {"Y", nullptr, 3}, {"Z", nullptr, 3}}};
}

}  // namespace rakelight
