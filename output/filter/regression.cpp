#include "output/filter/regression.h"

namespace rakelight::filter {

namespace {

constexpr std::size_t kTerms = kSights + 3;  // a constant, what is seen, and the place in the picture
constexpr float kRidge = 0.01f;  // of Tikhonov's regularisation, of the sum of weights: what is seen alike
                                 // everywhere tells nothing
using Terms = std::array<Floats, kTerms>;
using Matrix = std::array<Terms, kTerms>;  // the lower half counts

Terms terms_of(const BodyLight& light, int x, int y, const Aside& aside,
               const std::array<Floats, kSights>& here) {
    Terms t;
    t[0] = broadcast(1);
    for (std::size_t k = 0; k < kSights; ++k)
        t[1 + k] = light.sight[k].eight(x + aside.dx, y + aside.dy) - here[k];
    t[kSights + 1] = broadcast(static_cast<float>(aside.dx) / kReach_px);
    t[kSights + 2] = broadcast(static_cast<float>(aside.dy) / kReach_px);
    return t;
}

// Cholesky's decomposition in place.
void decompose(Matrix& m) {
    for (std::size_t i = 0; i < kTerms; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            Floats s = m[i][j];
            for (std::size_t k = 0; k < j; ++k) s -= m[i][k] * m[j][k];
            m[i][j] = i == j ? sqrt(max(s, broadcast(1e-12f))) : s / m[j][j];
        }
}

// The first column of the inverse of a decomposed matrix.
Terms first_column(const Matrix& m) {
    Terms z;
    for (std::size_t i = 0; i < kTerms; ++i) {
        z[i] = i == 0 ? broadcast(1) : Floats{};
        for (std::size_t k = 0; k < i; ++k) z[i] -= m[i][k] * z[k];
        z[i] /= m[i][i];
    }
    for (std::size_t i = kTerms; i-- > 0;) {
        for (std::size_t k = i + 1; k < kTerms; ++k) z[i] -= m[k][i] * z[k];
        z[i] /= m[i][i];
    }
    return z;
}

}  // namespace

std::array<Floats, 3> regressed(const BodyLight& light, Weights& weights, int row, int eight, int x, int y,
                                bool second) {
    std::array<Floats, kSights> here;
    for (std::size_t k = 0; k < kSights; ++k) here[k] = light.sight[k].eight(x, y);
    Matrix m{};
    for (int n = 0; n < kNeighbours; ++n) {
        const Floats w = weights.at(n, row, eight);
        if (!any(w > 0)) continue;
        const Terms t = terms_of(light, x, y, Aside(n), here);
        for (std::size_t i = 0; i < kTerms; ++i) {
            const Floats wt = w * t[i];
            for (std::size_t j = 0; j <= i; ++j) m[i][j] += wt * t[j];
        }
    }
    for (std::size_t i = 1; i < kTerms; ++i) m[i][i] += kRidge * m[0][0] + 1e-9f;
    m[0][0] += 1e-12f;
    decompose(m);
    const Terms z = first_column(m);
    std::array<Floats, 3> xyz{};
    for (int n = 0; n < kNeighbours; ++n) {
        const Floats w = weights.at(n, row, eight);
        if (!any(w > 0)) continue;
        const Aside aside(n);
        const int there_x = x + aside.dx, there_y = y + aside.dy;
        const Terms t = terms_of(light, x, y, aside, here);
        Floats kernel = z[0];
        for (std::size_t i = 1; i < kTerms; ++i) kernel += z[i] * t[i];
        const Floats a = light.first.eight(there_x, there_y), b = light.second.eight(there_x, there_y);
        kernel *= w * 2 * (second ? b : a) / max(a + b, broadcast(1e-9f));
        for (std::size_t c = 0; c < 3; ++c) xyz[c] += kernel * light.xyz[c].eight(there_x, there_y);
    }
    return xyz;
}

}  // namespace rakelight::filter
