#include "scene/geometry/contour.h"

#include <cstddef>
#include <cstdint>
#include <utility>

namespace rakelight {

namespace {

/// Where lines cross the lattice's edges, and how the crossings are linked.
class Crossings {
  public:
    explicit Crossings(std::size_t edges) : all_(edges) {}
    void place(std::int64_t edge, const glm::dvec2& at) { of(edge).at = at; }
    void link(std::int64_t a, std::int64_t b) {
        add(of(a), b);
        add(of(b), a);
    }
    std::vector<Contour> lines() {
        for (std::size_t i = 0; i < all_.size(); ++i)  // open lines from their ends
            if (!all_[i].used && all_[i].next[0] >= 0 && all_[i].next[1] < 0) trace(i);
        for (std::size_t i = 0; i < all_.size(); ++i)
            if (!all_[i].used && all_[i].next[0] >= 0) trace(i);
        return std::move(lines_);
    }

  private:
    struct Crossing {
        std::array<std::int64_t, 2> next{-1, -1};
        glm::dvec2 at{0};
        bool used = false;
    };
    Crossing& of(std::int64_t edge) { return all_[static_cast<std::size_t>(edge)]; }
    static void add(Crossing& c, std::int64_t other) { (c.next[0] < 0 ? c.next[0] : c.next[1]) = other; }
    void trace(std::size_t start) {
        Contour line;
        const auto back = static_cast<std::int64_t>(start);
        for (std::int64_t at = back; at >= 0 && !of(at).used;) {
            Crossing& c = of(at);
            c.used = true;
            line.line_mm.push_back(c.at);
            line.closed = line.line_mm.size() > 2 && (c.next[0] == back || c.next[1] == back);
            at = c.next[0] >= 0 && !of(c.next[0]).used ? c.next[0] : c.next[1];
        }
        lines_.push_back(std::move(line));
    }

    std::vector<Crossing> all_;
    std::vector<Contour> lines_;
};

}  // namespace

std::vector<Contour> zero_contours(int columns, int rows,
                                   const std::function<std::optional<ContourSquare>(int x, int y)>& square,
                                   const std::function<glm::dvec2(int x, int y)>& place) {
    const auto edge_name = [&](int x, int y, int direction) {
        return (static_cast<std::int64_t>(y) * columns + x) * 2 + direction;
    };
    Crossings crossings(2 * static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    for (int y = 0; y + 1 < rows; ++y)
        for (int x = 0; x + 1 < columns; ++x) {
            const auto values = square(x, y);
            if (!values) continue;
            const std::array<glm::ivec2, 4> corner{{{x, y}, {x + 1, y}, {x + 1, y + 1}, {x, y + 1}}};
            const std::array<std::int64_t, 4> name{edge_name(x, y, 0), edge_name(x + 1, y, 1),
                                                   edge_name(x, y + 1, 0), edge_name(x, y, 1)};
            std::array<std::int64_t, 4> found{};
            std::size_t count = 0;
            for (std::size_t c = 0; c < 4; ++c) {
                const std::size_t d = (c + 1) % 4;
                const glm::vec2 a = (*values)[c], b = (*values)[d];
                if ((a.x < 0) == (b.x < 0)) continue;
                const float t = a.x / (a.x - b.x);
                if (a.y + t * (b.y - a.y) <= 0) continue;
                found[count++] = name[c];
                crossings.place(name[c], glm::mix(place(corner[c].x, corner[c].y),
                                                  place(corner[d].x, corner[d].y), static_cast<double>(t)));
            }
            if (count == 2) crossings.link(found[0], found[1]);
        }
    return crossings.lines();
}

}  // namespace rakelight
