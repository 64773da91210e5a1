// Owen-scrambled Sobol points, two dimensions at a time, one decorrelated pattern for each pixel and each
// pair of dimensions ("padded" 2-D sets). Hash-based nested uniform scrambling after Laine and Karras 2011,
// "Stratified Sampling for Stochastic Transparency", and Burley 2020, "Practical Hash-based Owen Scrambling"
// (JCGT 9(4)). A point depends only on pixel seed, sample number and pair number: never on threads or order.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>

namespace rakelight {

/// Mixes a 32-bit word well enough to seed one pattern from another.
inline std::uint32_t mix_word(std::uint32_t x) {
    x ^= x >> 16;
    x *= 0x21f0aaadu;
    x ^= x >> 15;
    x *= 0x735a2d97u;
    x ^= x >> 15;
    return x;
}

/// Both halves of a 64-bit word reversed and swapped: two 32-bit reversals for the price of one.
inline std::uint64_t reverse_bits(std::uint64_t x) {
    x = __builtin_bswap64(x);
    x = (x & 0x0f0f0f0f0f0f0f0full) << 4 | (x >> 4 & 0x0f0f0f0f0f0f0f0full);
    x = (x & 0x3333333333333333ull) << 2 | (x >> 2 & 0x3333333333333333ull);
    return (x & 0x5555555555555555ull) << 1 | (x >> 1 & 0x5555555555555555ull);
}

inline std::uint32_t reverse_bits(std::uint32_t x) {
    return static_cast<std::uint32_t>(reverse_bits(std::uint64_t{x}) >> 32);
}

/// Nested uniform scramble of a number whose first binary digit is its LOWEST bit: every digit is flipped by
/// a hash of the digits before it (multiplying by an even number lets bits act only on higher ones).
inline std::uint32_t scramble_low_first(std::uint32_t x, std::uint32_t seed) {
    x += seed;
    x ^= x * 0x6c50b47cu;
    x ^= x * 0xb82f1e52u;
    x ^= x * 0xc7afe638u;
    x ^= x * 0x8d22f6e6u;
    return x;
}

/// Second Sobol dimension of index `j`, lowest bit first: the Pascal triangle modulo 2, that is, for every
/// digit k the parity of the digits of j whose place contains k as a bit pattern (Lucas), in five steps.
inline std::uint32_t sobol_second_low_first(std::uint32_t j) {
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

class Sampler {
  public:
    /// `pixel_seed` picks the pixel's pattern, `index` the sample within it.
    Sampler(std::uint32_t pixel_seed, std::uint32_t index)
        : seed_(pixel_seed), reversed_(reverse_bits(index)) {}

    /// Next pair of dimensions, each in [0, 1).
    glm::vec2 next() {
        const std::uint32_t s = mix_word(seed_ + 0x9e3779b9u * ++pair_);
        const std::uint32_t j = reverse_bits(scramble_low_first(reversed_, s));
        const std::uint64_t x = scramble_low_first(j, s ^ 0x68bc21ebu);
        const std::uint64_t y = scramble_low_first(sobol_second_low_first(j), s ^ 0x02e5be93u);
        const std::uint64_t xy = reverse_bits(y << 32 | x);
        return {unit_float(static_cast<std::uint32_t>(xy >> 32)), unit_float(static_cast<std::uint32_t>(xy))};
    }

    /// A pair that is only random, for questions where even spread buys nothing.
    glm::vec2 next_random() {
        const std::uint32_t x = mix_word((seed_ ^ reversed_) + 0x9e3779b9u * ++pair_);
        return {unit_float(x), unit_float(x * 0x2c1b3c6du ^ x >> 15)};
    }

    glm::vec2 next(bool evenly) { return evenly ? next() : next_random(); }

  private:
    std::uint32_t seed_;
    std::uint32_t reversed_;
    std::uint32_t pair_ = 0;
};

/// Seed of a pixel's pattern in a picture of seed `picture_seed`.
inline std::uint32_t pixel_seed(int x, int y, std::uint32_t picture_seed) {
    return mix_word(mix_word(static_cast<std::uint32_t>(x) + 0x3c6ef372u * picture_seed) ^
                    (static_cast<std::uint32_t>(y) * 0x9e3779b1u + 0x7f4a7c15u));
}

}  // namespace rakelight
