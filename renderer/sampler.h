// Owen-scrambled Sobol points, two dimensions at a time, one decorrelated pattern for each pixel and each
// pair of dimensions ("padded" 2-D sets). Hash-based nested uniform scrambling after Laine and Karras 2011,
// "Stratified Sampling for Stochastic Transparency", and Burley 2020, "Practical Hash-based Owen Scrambling"
// (JCGT 9(4)). A point depends only on pixel seed, sample number and pair number: never on threads or order.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>

#include "materials/maths/lanes.h"

namespace rakelight {

/// Mixes a 32-bit word well enough to seed one pattern from another.
template <class Word>
inline Word mix_word(Word x) {
    x ^= x >> 16;
    x *= 0x21f0aaadu;
    x ^= x >> 15;
    x *= 0x735a2d97u;
    x ^= x >> 15;
    return x;
}

template <class Word>
inline Word reverse_bits(Word x) {
    x = x << 16 | x >> 16;
    x = (x & 0x00ff00ffu) << 8 | (x >> 8 & 0x00ff00ffu);
    x = (x & 0x0f0f0f0fu) << 4 | (x >> 4 & 0x0f0f0f0fu);
    x = (x & 0x33333333u) << 2 | (x >> 2 & 0x33333333u);
    return (x & 0x55555555u) << 1 | (x >> 1 & 0x55555555u);
}

/// The same of eight: the bits of a byte by tables of its halves, then the bytes.
inline Words reverse_bits(const Words& x) {
    const auto twice = [](const __m128i& half) { return _mm256_broadcastsi128_si256(half); };
    const __m256i of_low =
        twice(_mm_setr_epi8(0, -128, 64, -64, 32, -96, 96, -32, 16, -112, 80, -48, 48, -80, 112, -16));
    const __m256i of_high = twice(_mm_setr_epi8(0, 8, 4, 12, 2, 10, 6, 14, 1, 9, 5, 13, 3, 11, 7, 15));
    const __m256i bytes = twice(_mm_setr_epi8(3, 2, 1, 0, 7, 6, 5, 4, 11, 10, 9, 8, 15, 14, 13, 12));
    const __m256i turned = _mm256_shuffle_epi8(reinterpret_cast<__m256i>(x), bytes);
    const __m256i half = _mm256_set1_epi8(15);
    const __m256i low = _mm256_shuffle_epi8(of_low, _mm256_and_si256(turned, half));
    const __m256i high = _mm256_shuffle_epi8(of_high, _mm256_and_si256(_mm256_srli_epi16(turned, 4), half));
    return reinterpret_cast<Words>(_mm256_or_si256(low, high));
}

/// Nested uniform scramble of a number whose first binary digit is its LOWEST bit: every digit is flipped by
/// a hash of the digits before it (multiplying by an even number lets bits act only on higher ones).
template <class Word>
inline Word scramble_low_first(Word x, const Word& seed) {
    x += seed;
    x ^= x * 0x6c50b47cu;
    x ^= x * 0xb82f1e52u;
    x ^= x * 0xc7afe638u;
    x ^= x * 0x8d22f6e6u;
    return x;
}

/// Second Sobol dimension of index `j`, lowest bit first: the Pascal triangle modulo 2, that is, for every
/// digit k the parity of the digits of j whose place contains k as a bit pattern (Lucas), in five steps.
template <class Word>
inline Word sobol_second_low_first(Word j) {
    j ^= j >> 1 & 0x55555555u;
    j ^= j >> 2 & 0x33333333u;
    j ^= j >> 4 & 0x0f0f0f0fu;
    j ^= j >> 8 & 0x00ff00ffu;
    j ^= j >> 16 & 0x0000ffffu;
    return j;
}

/// A 32-bit fraction as a float in [0, 1).
inline float unit_float(std::uint32_t x) {
    return static_cast<float>(x >> 8) * 0x1p-24f;
}
inline Floats unit_float(const Words& x) {
    return __builtin_convertvector(x >> 8, Floats) * 0x1p-24f;
}

/// Two uniform numbers, of one path or of eight.
template <class Real>
struct PairOf {
    Real x, y;
};

/// One sample of a pixel's pattern, or eight of them (Word = Words).
template <class Word>
struct SamplePoint {
    using Real = decltype(unit_float(Word{}));

    Word seed{};      ///< of the pixel's pattern
    Word reversed{};  ///< number of the sample, its bits reversed
    Word pair{};      ///< dimensions used so far

    /// The pair of dimensions `ahead` after those used, ahead >= 1; each in [0, 1).
    PairOf<Real> even_pair(std::uint32_t ahead) const {
        const Word s = mix_word(Word(seed + 0x9e3779b9u * (pair + ahead)));
        const Word j = reverse_bits(scramble_low_first(reversed, s));
        const Word x = scramble_low_first(j, Word(s ^ 0x68bc21ebu));
        const Word y = scramble_low_first(sobol_second_low_first(j), Word(s ^ 0x02e5be93u));
        return {unit_float(reverse_bits(x)), unit_float(reverse_bits(y))};
    }

    /// One that is only random, for choices where even spread buys nothing.
    PairOf<Real> random_pair(std::uint32_t ahead) const {
        const Word x = mix_word(Word((seed ^ reversed) + 0x9e3779b9u * (pair + ahead)));
        return {unit_float(x), unit_float(Word(x * 0x2c1b3c6du ^ x >> 15))};
    }

    PairOf<Real> pair_at(std::uint32_t ahead, bool evenly) const {
        return evenly ? even_pair(ahead) : random_pair(ahead);
    }
};

class Sampler {
  public:
    /// `pixel_seed` picks the pixel's pattern, `index` the sample within it.
    Sampler(std::uint32_t pixel_seed, std::uint32_t index) : point_{pixel_seed, reverse_bits(index), 0} {}

    /// Goes on from a point, as a path does that was put away.
    explicit Sampler(const SamplePoint<std::uint32_t>& point) : point_(point) {}

    /// Next pair of dimensions, each in [0, 1).
    glm::vec2 next() {
        const PairOf<float> p = point_.even_pair(1);
        ++point_.pair;
        return {p.x, p.y};
    }

    /// Where it stands.
    const SamplePoint<std::uint32_t>& point() const { return point_; }

  private:
    SamplePoint<std::uint32_t> point_;
};

/// Seed of a pixel's pattern in a picture of seed `picture_seed`.
inline std::uint32_t pixel_seed(int x, int y, std::uint32_t picture_seed) {
    return mix_word(mix_word(static_cast<std::uint32_t>(x) + 0x3c6ef372u * picture_seed) ^
                    (static_cast<std::uint32_t>(y) * 0x9e3779b1u + 0x7f4a7c15u));
}

}  // namespace rakelight
