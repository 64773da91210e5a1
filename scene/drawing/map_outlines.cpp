#include "scene/drawing/map_outlines.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <unordered_map>
#include <utility>

#include "scene/geometry/thinning.h"

namespace rakelight {
namespace {

using glm::dvec2;
using glm::ivec2;

constexpr double kThinning_px = 0.1;
constexpr double kGroove_px = kMapTolerance_px - kThinning_px;
constexpr int kRounds = 60;
constexpr std::size_t kCornerRun_px = 4;  // straight runs this long on both sides make a corner

// Directions count clockwise as the map is seen, y down: right, down, left, up.
constexpr std::array<ivec2, 4> kStep{ivec2{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
constexpr std::array<ivec2, 4> kLeftPixel{ivec2{0, -1}, {0, 0}, {-1, 0}, {-1, -1}};

int back(int way) {
    return (way + 2) % 4;
}

/// Sides of pixels between two different labels.
class Borders {
  public:
    explicit Borders(const LabelMap& map)
        : map_(map),
          taken_(static_cast<std::size_t>(map.width + 1) * static_cast<std::size_t>(map.height + 1)) {}

    std::uint8_t left(ivec2 v, int way) const {
        const ivec2 p = v + kLeftPixel[static_cast<std::size_t>(way)];
        return map_.at(p.x, p.y);
    }
    std::uint8_t right(ivec2 v, int way) const {
        return left(v + kStep[static_cast<std::size_t>(way)], back(way));
    }
    bool border(ivec2 v, int way) const { return left(v, way) != right(v, way); }
    int degree(ivec2 v) const {
        int n = 0;
        for (int way = 0; way < 4; ++way) n += border(v, way);
        return n;
    }
    bool node(ivec2 v) const { return degree(v) > 2; }
    bool corner_of_map(ivec2 v) const {
        return (v.x == 0 || v.x == map_.width) && (v.y == 0 || v.y == map_.height);
    }
    std::size_t index(ivec2 v) const {
        return static_cast<std::size_t>(v.y) * static_cast<std::size_t>(map_.width + 1) +
               static_cast<std::size_t>(v.x);
    }
    bool taken(ivec2 v, int way) const {
        const auto [i, bit] = side(v, way);
        return taken_[i] & bit;
    }
    void take(ivec2 v, int way) {
        const auto [i, bit] = side(v, way);
        taken_[i] = static_cast<std::uint8_t>(taken_[i] | bit);
    }
    const LabelMap& map() const { return map_; }

  private:
    std::pair<std::size_t, std::uint8_t> side(ivec2 v, int way) const {
        if (way > 1) v += kStep[static_cast<std::size_t>(way)];
        return {index(v), way % 2 == 0 ? 1 : 2};
    }

    const LabelMap& map_;
    std::vector<std::uint8_t> taken_;
};

/// A stretch of border from node to node, or a loop without one.
struct Chain {
    ivec2 first{}, last{};  ///< equal in a loop
    int way_out = 0;        ///< first step from `first`
    int way_home = 0;       ///< first step from `last`, walking back
    std::uint8_t left = kNoColour, right = kNoColour;
    bool loop = false;
    std::vector<dvec2> points;  ///< middles of sides and corners, between the nodes
    std::vector<char> fixed;    ///< of each point
};

Chain follow(Borders& borders, ivec2 start, int way) {
    Chain chain{start, start, way, 0, borders.left(start, way), borders.right(start, way)};
    std::vector<std::pair<ivec2, int>> steps;
    ivec2 v = start;
    for (;;) {
        borders.take(v, way);
        steps.emplace_back(v, way);
        v += kStep[static_cast<std::size_t>(way)];
        if (borders.node(v) || v == start) break;
        for (int next = 0; next < 4; ++next)
            if (next != back(way) && borders.border(v, next)) {
                way = next;
                break;
            }
    }
    chain.last = v;
    chain.way_home = back(way);
    chain.loop = !borders.node(v);
    // The length of the straight run that each step belongs to.
    const std::size_t n = steps.size();
    std::vector<std::size_t> run(n);
    for (std::size_t i = 0; i < n;) {
        std::size_t end = i;
        while (end < n && steps[end].second == steps[i].second) ++end;
        std::fill(run.begin() + static_cast<std::ptrdiff_t>(i),
                  run.begin() + static_cast<std::ptrdiff_t>(end), end - i);
        i = end;
    }
    if (chain.loop && n > 1 && steps[0].second == steps[n - 1].second) {  // the run across the seam
        const std::size_t head = run[0], tail = run[n - 1];
        if (head < n)
            for (std::size_t i = 0; i < n; ++i)
                if (i < head || i >= n - tail) run[i] = head + tail;
    }
    for (std::size_t i = 0; i < n; ++i) {
        const auto& [at, to] = steps[i];
        const std::size_t before = i > 0 ? i - 1 : n - 1;
        const bool turns = (i > 0 || chain.loop) && steps[before].second != to;
        if (turns && (borders.corner_of_map(at) || std::min(run[before], run[i]) >= kCornerRun_px)) {
            chain.points.emplace_back(at);
            chain.fixed.push_back(1);
        }
        chain.points.push_back(dvec2(at) + 0.5 * dvec2(kStep[static_cast<std::size_t>(to)]));
        chain.fixed.push_back(0);
    }
    return chain;
}

std::vector<Chain> all_chains(Borders& borders) {
    std::vector<Chain> chains;
    for (const bool from_nodes : {true, false})
        for (int y = 0; y <= borders.map().height; ++y)
            for (int x = 0; x <= borders.map().width; ++x)
                for (int way = 0; way < (from_nodes ? 4 : 2); ++way)
                    if (borders.border({x, y}, way) && !borders.taken({x, y}, way) &&
                        borders.node({x, y}) == from_nodes)
                        chains.push_back(follow(borders, {x, y}, way));
    return chains;
}

struct Node {
    dvec2 at{}, before{}, sum{};
    int neighbours = 0;
};

class Relaxing {
  public:
    Relaxing(const Borders& borders, std::vector<Chain>& chains) : borders_(borders), chains_(chains) {
        for (const Chain& chain : chains) {
            if (chain.loop) continue;
            for (const ivec2 v : {chain.first, chain.last})
                nodes_[borders.index(v)] = {dvec2(v), dvec2(v), {}, 0};
        }
        for (const Chain& chain : chains) middles_.push_back(chain.points);
    }

    void round() {
        // Ends first: they need where their neighbours were. Sums run in the order of chains.
        for (Chain& chain : chains_) {
            if (chain.loop) continue;
            for (const auto& [v, p] :
                 {std::pair{chain.first, chain.points.front()}, {chain.last, chain.points.back()}}) {
                Node& node = nodes_.at(borders_.index(v));
                node.before = node.at;
                node.sum += p;
                ++node.neighbours;
            }
        }
        for (std::size_t c = 0; c < chains_.size(); ++c) relax(chains_[c], middles_[c]);
        for (const Chain& chain : chains_)
            if (!chain.loop)
                for (const ivec2 v : {chain.first, chain.last}) settle(v);
    }

    dvec2 node(ivec2 v) const { return nodes_.at(borders_.index(v)).at; }

  private:
    static dvec2 kept_near(dvec2 p, dvec2 home) {
        const double away = glm::distance(p, home);
        return away > kGroove_px ? home + kGroove_px / away * (p - home) : p;
    }

    void relax(Chain& chain, const std::vector<dvec2>& middles) {
        auto& p = chain.points;
        const std::size_t n = p.size();
        const dvec2 start = chain.loop ? p[n - 1] : nodes_.at(borders_.index(chain.first)).before;
        const dvec2 end = chain.loop ? p[0] : nodes_.at(borders_.index(chain.last)).before;
        dvec2 before = start;
        for (std::size_t i = 0; i < n; ++i) {
            const dvec2 here = p[i], after = i + 1 < n ? p[i + 1] : end;
            if (!chain.fixed[i]) p[i] = kept_near(0.5 * here + 0.25 * (before + after), middles[i]);
            before = here;
        }
    }

    void settle(ivec2 v) {
        Node& node = nodes_.at(borders_.index(v));
        if (node.neighbours == 0) return;  // already, for another chain
        dvec2 p = kept_near(0.5 * node.at + 0.5 / node.neighbours * node.sum, dvec2(v));
        if (v.x == 0 || v.x == borders_.map().width) p.x = v.x;
        if (v.y == 0 || v.y == borders_.map().height) p.y = v.y;
        node = {p, p, {}, 0};
    }

    const Borders& borders_;
    std::vector<Chain>& chains_;
    std::vector<std::vector<dvec2>> middles_;
    std::unordered_map<std::size_t, Node> nodes_;  // looked up only
};

/// The chain with its nodes, thinned; a loop does not repeat its first point.
std::vector<dvec2> finished(const Chain& chain, const Relaxing& relaxing) {
    if (chain.loop) return thinned(chain.points, true, kThinning_px);
    std::vector<dvec2> whole{relaxing.node(chain.first)};
    whole.insert(whole.end(), chain.points.begin(), chain.points.end());
    whole.push_back(relaxing.node(chain.last));
    return thinned(whole, false, kThinning_px);
}

}  // namespace

std::vector<std::vector<std::vector<dvec2>>> map_outlines(const LabelMap& map, std::size_t colours) {
    Borders borders(map);
    std::vector<Chain> chains = all_chains(borders);
    Relaxing relaxing(borders, chains);
    for (int i = 0; i < kRounds; ++i) relaxing.round();

    // Half a chain is a chain walked one way: 2 c along it, 2 c + 1 back.
    std::unordered_map<std::size_t, std::size_t> leaving;  // by node and way; looked up only
    std::vector<std::vector<dvec2>> lines;
    for (std::size_t c = 0; c < chains.size(); ++c) {
        const Chain& chain = chains[c];
        lines.push_back(finished(chain, relaxing));
        if (chain.loop) continue;
        leaving[4 * borders.index(chain.first) + static_cast<std::size_t>(chain.way_out)] = 2 * c;
        leaving[4 * borders.index(chain.last) + static_cast<std::size_t>(chain.way_home)] = 2 * c + 1;
    }
    std::vector<std::vector<std::vector<dvec2>>> outlines(colours);
    std::vector<char> walked(2 * chains.size(), 0);
    for (std::size_t start = 0; start < walked.size(); ++start) {
        const std::uint8_t label = start % 2 == 0 ? chains[start / 2].left : chains[start / 2].right;
        if (walked[start] || label >= colours) continue;
        std::vector<dvec2> ring;
        for (std::size_t half = start; !walked[half];) {
            walked[half] = 1;
            const Chain& chain = chains[half / 2];
            const bool along = half % 2 == 0;
            std::vector<dvec2> line = lines[half / 2];
            if (!along) std::reverse(line.begin(), line.end());
            if (!chain.loop) line.pop_back();  // the next begins there
            ring.insert(ring.end(), line.begin(), line.end());
            if (chain.loop) break;
            // At a node keep as far left as the label does, so that areas joined by a corner stay apart.
            const ivec2 v = along ? chain.last : chain.first;
            const int ahead = back(along ? chain.way_home : chain.way_out);
            for (const int turn : {3, 0, 1}) {
                const int way = (ahead + turn) % 4;
                if (!borders.border(v, way) || borders.left(v, way) != label) continue;
                half = leaving.at(4 * borders.index(v) + static_cast<std::size_t>(way));
                break;
            }
        }
        for (dvec2& p : ring) p.y = map.height - p.y;
        if (ring.size() > 2) outlines[label].push_back(std::move(ring));
    }
    return outlines;
}

}  // namespace rakelight
