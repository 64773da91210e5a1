// SIMD vectors of eight lanes (AVX, the compiler's own vector types), in which light paths are shaded, and
// the few operations that let one formula serve a single number and eight. Lanes never mix, so what a lane
// holds does not depend on its neighbours.
#pragma once

#include <immintrin.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace rakelight {

inline constexpr std::size_t kLanes = 8;
using Floats = float __attribute__((vector_size(32)));
using Ints = std::int32_t __attribute__((vector_size(32)));  ///< also what comparing gives: -1 or 0
using Words = std::uint32_t __attribute__((vector_size(32)));

/// One value for each lane, of any type.
template <class T>
using LaneArray = std::array<T, kLanes>;

// One name for one number and for eight.
using std::floor;
using std::max;
using std::min;
using std::sqrt;

inline Floats sqrt(const Floats& x) {
    return _mm256_sqrt_ps(x);
}
inline Floats floor(const Floats& x) {
    return _mm256_floor_ps(x);
}
inline Floats min(const Floats& a, const Floats& b) {
    return _mm256_min_ps(a, b);
}
inline Floats max(const Floats& a, const Floats& b) {
    return _mm256_max_ps(a, b);
}

/// The same value in every lane.
inline Floats broadcast(float x) {
    return _mm256_set1_ps(x);
}

/// Whether a comparison holds in any lane.
inline bool any(const Ints& holds) {
    return _mm256_movemask_epi8(reinterpret_cast<__m256i>(holds)) != 0;
}

/// Whole part of x, kept within [low, high] even where x is no number.
inline Ints index_within(const Floats& x, int low, int high) {
    const Ints i = __builtin_convertvector(x, Ints);
    const Ints raised = i > low ? i : Ints{} + low;
    return raised < high ? raised : Ints{} + high;
}

/// Lanes filled by `f(lane)`.
template <class F>
inline Floats gather(F&& f) {
    return Floats{f(0), f(1), f(2), f(3), f(4), f(5), f(6), f(7)};
}
template <class F>
inline Words gather_words(F&& f) {
    return Words{f(0), f(1), f(2), f(3), f(4), f(5), f(6), f(7)};
}

/// Eight points or directions.
struct Vec3s {
    Floats x, y, z;

    friend Vec3s operator+(const Vec3s& a, const Vec3s& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend Vec3s operator-(const Vec3s& a, const Vec3s& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend Vec3s operator-(const Vec3s& a) { return {-a.x, -a.y, -a.z}; }
    friend Vec3s operator*(const Vec3s& a, const Floats& s) { return {a.x * s, a.y * s, a.z * s}; }
};

/// The same vector, of any type with x, y and z, in every lane.
template <class Vec3>
inline Vec3s broadcast3(const Vec3& v) {
    return {broadcast(v.x), broadcast(v.y), broadcast(v.z)};
}

inline Floats dot(const Vec3s& a, const Vec3s& b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline Vec3s normalised(const Vec3s& a) {
    return a * (1 / sqrt(dot(a, a)));
}
inline Vec3s select(const Ints& condition, const Vec3s& a, const Vec3s& b) {
    return {condition ? a.x : b.x, condition ? a.y : b.y, condition ? a.z : b.z};
}

/// The vectors `f(lane)`, of any type with x, y and z.
template <class F>
inline Vec3s gather3(F&& f) {
    return {gather([&](std::size_t k) { return f(k).x; }), gather([&](std::size_t k) { return f(k).y; }),
            gather([&](std::size_t k) { return f(k).z; })};
}

}  // namespace rakelight
