// Small square matrices over the directions inside a layer, for the doubling and adding of layer.cpp.
#pragma once

#include <array>
#include <cstddef>

#include "materials/optics/layer.h"

namespace rakelight::layer_matrix {

inline constexpr int N = LayerFrame::kDirections;
using Vector = LayerFrame::Directions;
/// Of all zeros to begin with.
struct alignas(32) Matrix {
    std::array<Vector, N> row{};
};

/// Product.
inline Matrix operator*(const Matrix& a, const Matrix& b) {
    Matrix r;
    for (std::size_t i = 0; i < N; ++i)
        for (std::size_t k = 0; k < N; ++k)
            for (std::size_t j = 0; j < N; ++j) r.row[i][j] += a.row[i][k] * b.row[k][j];
    return r;
}

/// Solves a x = b by elimination; `a` is an M-matrix (identity less a non-negative matrix of norm below 1),
/// for which no pivoting is needed.
inline Matrix solve(Matrix a, Matrix b) {
    for (std::size_t k = 0; k < N; ++k) {
        const double inverse = 1 / a.row[k][k];
        for (std::size_t i = k + 1; i < N; ++i) {
            const double f = a.row[i][k] * inverse;
            for (std::size_t j = k; j < N; ++j) a.row[i][j] -= f * a.row[k][j];
            for (std::size_t j = 0; j < N; ++j) b.row[i][j] -= f * b.row[k][j];
        }
    }
    for (std::size_t k = N; k-- > 0;) {
        for (std::size_t i = k + 1; i < N; ++i)
            for (std::size_t j = 0; j < N; ++j) b.row[k][j] -= a.row[k][i] * b.row[i][j];
        const double inverse = 1 / a.row[k][k];
        for (std::size_t j = 0; j < N; ++j) b.row[k][j] *= inverse;
    }
    return b;
}

/// Sum.
inline Matrix operator+(Matrix a, const Matrix& b) {
    for (std::size_t i = 0; i < N; ++i)
        for (std::size_t j = 0; j < N; ++j) a.row[i][j] += b.row[i][j];
    return a;
}

/// The identity less `a`.
inline Matrix identity_less(const Matrix& a) {
    Matrix r;
    for (std::size_t i = 0; i < N; ++i)
        for (std::size_t j = 0; j < N; ++j) r.row[i][j] = (i == j ? 1.0 : 0.0) - a.row[i][j];
    return r;
}

}  // namespace rakelight::layer_matrix
