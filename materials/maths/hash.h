// Integer hashes and a small random number generator seeded by them: randomness depends on what a thing
// is and never on when it is made. The mixing step is the finaliser of splitmix64 (Steele, Lea, Flood, "Fast
// splittable pseudorandom number generators", OOPSLA 2014); text is folded by FNV-1a (Fowler, Noll, Vo).
#pragma once

#include <cstdint>
#include <numbers>
#include <string_view>

namespace rakelight {

constexpr std::uint64_t mix_bits(std::uint64_t x) {
    x += 0x9e3779b97f4a7c15u;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
    return x ^ (x >> 31);
}

/// A hash of two values, in that order.
constexpr std::uint64_t hash_combine(std::uint64_t a, std::uint64_t b) {
    return mix_bits(mix_bits(a) ^ b);
}

constexpr std::uint64_t hash_text(std::string_view text) {
    std::uint64_t h = 0xcbf29ce484222325u;
    for (const char c : text) h = (h ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
    return h;
}

/// The top 53 bits as a number in [0, 1).
constexpr double unit_from_hash(std::uint64_t h) {
    return static_cast<double>(h >> 11) * 0x1p-53;
}

/// A random number generator that starts from a hash. Same seed, same numbers. Not for two threads at once.
class Rng {
  public:
    explicit constexpr Rng(std::uint64_t seed) : state_(mix_bits(seed)) {}

    /// Uniform in [0, 1).
    constexpr double unit() { return unit_from_hash(state_ = mix_bits(state_)); }
    /// Uniform in [low, high).
    constexpr double within(double low, double high) { return low + (high - low) * unit(); }
    /// Mean 0, standard deviation 1, never beyond 3.5: the sum of four uniforms, as even as a hand wants to
    /// be.
    constexpr double spread() {
        const double sum = unit() + unit() + unit() + unit();
        return (sum - 2) * std::numbers::sqrt3;
    }

  private:
    std::uint64_t state_;
};

}  // namespace rakelight
