// Numbers that lie side by side in memory, of eight lanes, to SIMD vectors and back: rows to columns.
#pragma once

#include <cstddef>

#include "materials/maths/lanes.h"

namespace rakelight {

/// Eight rows of eight numbers turned into columns.
inline LaneArray<Floats> transposed(const LaneArray<Floats>& rows) {
    const auto pairs = [&](std::size_t k) {
        return std::array{_mm256_unpacklo_ps(rows[k], rows[k + 1]), _mm256_unpackhi_ps(rows[k], rows[k + 1])};
    };
    const auto fours = [&](std::size_t k) {
        const auto a = pairs(k), b = pairs(k + 2);
        return std::array{_mm256_shuffle_ps(a[0], b[0], 0x44), _mm256_shuffle_ps(a[0], b[0], 0xee),
                          _mm256_shuffle_ps(a[1], b[1], 0x44), _mm256_shuffle_ps(a[1], b[1], 0xee)};
    };
    const auto upper = fours(0), lower = fours(4);
    LaneArray<Floats> columns;
    for (std::size_t i = 0; i < 4; ++i) {
        columns[i] = _mm256_permute2f128_ps(upper[i], lower[i], 0x20);
        columns[i + 4] = _mm256_permute2f128_ps(upper[i], lower[i], 0x31);
    }
    return columns;
}

/// Eight numbers in a row from `row(lane)`, a `const float*`, for each lane: eight columns.
template <class F>
inline LaneArray<Floats> columns_of_8(F&& row) {
    LaneArray<Floats> rows;
    for (std::size_t k = 0; k < kLanes; ++k) rows[k] = _mm256_loadu_ps(row(k));
    return transposed(rows);
}

/// Two numbers in a row from `row(lane)`, a `const float*`, for each lane: two columns.
template <class F>
inline std::array<Floats, 2> columns_of_2(F&& row) {
    const auto two = [&](std::size_t k) {
        const __m128 low = _mm_castpd_ps(_mm_load_sd(reinterpret_cast<const double*>(row(k))));
        return _mm_loadh_pi(low, reinterpret_cast<const __m64*>(row(k + 1)));
    };
    const auto both = [&](std::size_t k) {
        return _mm256_insertf128_ps(_mm256_castps128_ps256(two(k)), two(k + 4), 1);
    };
    const Floats a = both(0), b = both(2);
    return {_mm256_shuffle_ps(a, b, 0x88), _mm256_shuffle_ps(a, b, 0xdd)};
}

/// Four numbers in a row from `row(lane)`, a `const float*`, for each lane: four columns.
template <class F>
inline std::array<Floats, 4> columns_of_4(F&& row) {
    const auto both = [&](std::size_t k) -> Floats {
        return _mm256_insertf128_ps(_mm256_castps128_ps256(_mm_loadu_ps(row(k))), _mm_loadu_ps(row(k + 4)),
                                    1);
    };
    const Floats a = both(0), b = both(1), c = both(2), d = both(3);
    const Floats ab_low = _mm256_unpacklo_ps(a, b), ab_high = _mm256_unpackhi_ps(a, b);
    const Floats cd_low = _mm256_unpacklo_ps(c, d), cd_high = _mm256_unpackhi_ps(c, d);
    return {_mm256_shuffle_ps(ab_low, cd_low, 0x44), _mm256_shuffle_ps(ab_low, cd_low, 0xee),
            _mm256_shuffle_ps(ab_high, cd_high, 0x44), _mm256_shuffle_ps(ab_high, cd_high, 0xee)};
}

}  // namespace rakelight
