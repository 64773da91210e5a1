#include "scene/flow/breathing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace rakelight {

namespace {

constexpr double kAcross = 0.02;   // weight of likeness between neighbouring rows beside that along a row
constexpr double kAsAsked = 6e-4;  // weight, a node, of being as wide as asked
constexpr double kBeyond = 0.02;   // weight of what lies off the field
constexpr int kRounds = 160;
constexpr double kOver = 1.8;  // successive over-relaxation (Young 1954)

// A square of the lattice: which way its rows run and how fast their normals turn apart.
struct Square {
    glm::dvec2 normal{0, 1};
    double curl = 0;  // of the unit normals, times the lattice step
};

std::optional<Square> square_of(const std::array<glm::dvec2, 4>& doubled) {
    std::array<glm::dvec2, 4> n;
    for (std::size_t k = 0; k < 4; ++k) {
        const double turn = 0.5 * std::atan2(doubled[k].y, doubled[k].x);
        n[k] = {-std::sin(turn), std::cos(turn)};
        if (k > 0 && glm::dot(n[k], n[k - 1]) < 0) n[k] = -n[k];
    }
    if (glm::dot(n[3], n[0]) < 0.3) return std::nullopt;  // rows end in a point here
    const glm::dvec2 sum = n[0] + n[1] + n[2] + n[3];
    // Counter-clockwise from the lower left: along the bottom, up, back along the top, down.
    const double curl = 0.5 * ((n[0].x + n[1].x) + (n[1].y + n[2].y) - (n[2].x + n[3].x) - (n[3].y + n[0].y));
    return Square{sum / glm::length(sum), curl};
}

// A symmetric nine-point operator and what it is to give.
struct Equations {
    const Lattice& lattice;
    std::vector<std::array<double, 9>> weight;  // neighbour (dx, dy) at 3 * (dy + 1) + dx + 1
    std::vector<double> wanted;

    explicit Equations(const Lattice& l) : lattice(l), weight(l.count()), wanted(l.count(), 0.0) {
        for (auto& w : weight) w = {0, 0, 0, 0, kAsAsked, 0, 0, 0, 0};
    }
    void add(int x, int y, const Square& square, double share) {
        constexpr std::array<glm::ivec2, 4> kCorners{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
        constexpr std::array<glm::dvec2, 4> kSlope{{{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}}};
        const glm::dvec2 &n = square.normal, t(n.y, -n.x);
        for (std::size_t k = 0; k < 4; ++k) {
            const std::size_t i = lattice.index(x + kCorners[k].x, y + kCorners[k].y);
            const double along = glm::dot(t, kSlope[k]), across = glm::dot(n, kSlope[k]);
            wanted[i] -= share * along * square.curl;
            for (std::size_t m = 0; m < 4; ++m) {
                const glm::ivec2 to = kCorners[m] - kCorners[k];
                double pull = along * glm::dot(t, kSlope[m]) + kAcross * across * glm::dot(n, kSlope[m]);
                if (m == k) pull += 2 * kAcross;  // and sides, lest even and odd nodes part
                if ((to.x == 0) != (to.y == 0)) pull -= kAcross;
                weight[i][static_cast<std::size_t>(3 * (to.y + 1) + to.x + 1)] += share * pull;
            }
        }
    }
    double beside(const std::vector<double>& u, int x, int y) const {
        const auto& w = weight[lattice.index(x, y)];
        double sum = 0;
        for (int dy = -1; dy <= 1; ++dy)
            for (int dx = -1; dx <= 1; ++dx) {
                const double by = w[static_cast<std::size_t>(3 * (dy + 1) + dx + 1)];
                if ((dx == 0 && dy == 0) || by == 0) continue;
                sum += by * u[lattice.index(x + dx, y + dy)];
            }
        return sum;
    }
};

}  // namespace

std::vector<double> breathing(const std::vector<glm::dvec2>& doubled, const Lattice& lattice,
                              const std::vector<std::uint8_t>& counts, const std::vector<std::uint8_t>& cut) {
    Equations equations(lattice);
    for (int y = 0; y + 1 < lattice.rows; ++y)
        for (int x = 0; x + 1 < lattice.columns; ++x) {
            const std::array at{lattice.index(x, y), lattice.index(x + 1, y), lattice.index(x + 1, y + 1),
                                lattice.index(x, y + 1)};
            if (!cut.empty() && ((cut[at[0]] & 7u) || (cut[at[1]] & 10u) || (cut[at[3]] & 1u))) continue;
            const auto square = square_of({doubled[at[0]], doubled[at[1]], doubled[at[2]], doubled[at[3]]});
            const bool inside =
                counts.empty() || counts[at[0]] || counts[at[1]] || counts[at[2]] || counts[at[3]];
            if (square) equations.add(x, y, *square, inside ? 1 : kBeyond);
        }
    const double most = std::log(kMostBreath);
    std::vector<double> u(lattice.count(), 0.0);
    for (int round = 0; round < kRounds; ++round)
        for (int y = 0; y < lattice.rows; ++y)
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                const double own = equations.weight[i][4];
                const double to = (equations.wanted[i] - equations.beside(u, x, y)) / own;
                u[i] = std::clamp(u[i] + kOver * (to - u[i]), -most, most);
            }
    return u;
}

}  // namespace rakelight
