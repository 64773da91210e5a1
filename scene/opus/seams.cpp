#include "scene/opus/seams.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "scene/geometry/contour.h"
#include "scene/geometry/lattice.h"
#include "scene/geometry/stroke.h"

namespace rakelight {

namespace {

constexpr double kShortest = 3;  // rows: a seam that is shorter is none
constexpr double kPart = 1.5;    // rows: length of its straight parts

struct Nearest {
    float distance_mm = 1e30f;
    glm::vec2 along{1, 0};
};

// How near each guide is to each node, and which way it runs there.
class GuideDistances {
  public:
    GuideDistances(const std::vector<std::vector<glm::dvec2>>& guides, const Lattice& lattice)
        : guides_(guides.size()), of_node_(lattice.count() * guides.size()), owner_(lattice.count()) {
        tbb::parallel_for(0, lattice.rows, [&](int y) {
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                for (std::size_t g = 0; g < guides.size(); ++g) {
                    Nearest& nearest = of_node_[i * guides_ + g];
                    for (std::size_t k = 1; k < guides[g].size(); ++k) {
                        const glm::dvec2 &a = guides[g][k - 1], &b = guides[g][k];
                        const auto d = static_cast<float>(distance_mm(lattice.at(x, y), a, b));
                        if (d < nearest.distance_mm) nearest = {d, glm::vec2(glm::normalize(b - a))};
                    }
                    if (nearest.distance_mm < of_node_[i * guides_ + owner_[i]].distance_mm) owner_[i] = g;
                }
            }
        });
    }
    std::size_t owner(std::size_t node) const { return owner_[node]; }
    // Which of two guides is nearer, and whether their rows meet at an angle there.
    glm::vec2 between(std::size_t node, std::size_t a, std::size_t b) const {
        const Nearest &p = of_node_[node * guides_ + a], &q = of_node_[node * guides_ + b];
        const float cosine = std::abs(glm::dot(p.along, q.along));
        return {p.distance_mm - q.distance_mm,
                static_cast<float>(std::cos(glm::radians(kLeastMitre_deg))) - cosine};
    }

  private:
    std::size_t guides_;
    std::vector<Nearest> of_node_;
    std::vector<std::size_t> owner_;
};

// The lattice's steps taken out, and what is left in straight parts.
Row smooth_seam(std::vector<glm::dvec2> line, double row_mm) {
    for (int round = 0; round < 8; ++round) {
        const auto before = line;
        for (std::size_t i = 1; i + 1 < line.size(); ++i)
            line[i] = 0.5 * before[i] + 0.25 * (before[i - 1] + before[i + 1]);
    }
    return {resampled({std::move(line), false}, kPart * row_mm), false};
}

double length_mm(const std::vector<glm::dvec2>& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.size(); ++i) sum += glm::distance(line[i - 1], line[i]);
    return sum;
}

}  // namespace

std::vector<Row> seams_of(const Field& field, const Region& ground) {
    if (!field.mitred_seams || field.guides.size() < 2 || ground.empty()) return {};
    const double row_mm = field.piece_width_mm + field.joint_mm;
    std::vector<std::vector<glm::dvec2>> guides;
    for (const Stroke& stroke : field.guides)
        guides.push_back(resampled({flatten(stroke, 0.1), stroke.closed}, 0.5 * row_mm));
    const Lattice lattice = lattice_over(bounds(ground), 0.7 * row_mm);
    const GuideDistances near(guides, lattice);
    const auto corners = [&](int x, int y) {
        return std::array{lattice.index(x, y), lattice.index(x + 1, y), lattice.index(x + 1, y + 1),
                          lattice.index(x, y + 1)};
    };
    const auto pair_at = [&](int x, int y) -> std::optional<std::pair<std::size_t, std::size_t>> {
        std::set<std::size_t> owners;
        for (const std::size_t node : corners(x, y)) owners.insert(near.owner(node));
        if (owners.size() != 2) return std::nullopt;
        return std::pair{*owners.begin(), *owners.rbegin()};
    };
    std::set<std::pair<std::size_t, std::size_t>> pairs;
    for (int y = 0; y + 1 < lattice.rows; ++y)
        for (int x = 0; x + 1 < lattice.columns; ++x)
            if (const auto pair = pair_at(x, y)) pairs.insert(*pair);
    std::vector<Row> seams;
    for (const auto& pair : pairs) {
        const auto square = [&](int x, int y) -> std::optional<ContourSquare> {
            ContourSquare values;
            for (std::size_t k = 0; k < 4; ++k) {
                const std::size_t node = corners(x, y)[k], owner = near.owner(node);
                if (owner != pair.first && owner != pair.second) return std::nullopt;
                values[k] = near.between(node, pair.first, pair.second);
            }
            return values;
        };
        for (auto& line : zero_contours(lattice.columns, lattice.rows, square,
                                        [&](int x, int y) { return lattice.at(x, y); }))
            if (!line.closed && length_mm(line.line_mm) > kShortest * row_mm &&
                reaches(line.line_mm, false, ground))
                seams.push_back(smooth_seam(std::move(line.line_mm), row_mm));
    }
    return seams;
}

std::vector<Row> breaks_of(const Field& field, const Region& ground) {
    std::vector<Row> lines;
    for (const auto& stroke : field.breaks) lines.push_back({flatten(stroke, 0.1), stroke.closed});
    for (Row& seam : seams_of(field, ground)) lines.push_back(std::move(seam));
    return lines;
}

}  // namespace rakelight
