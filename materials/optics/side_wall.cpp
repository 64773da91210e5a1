#include "materials/optics/side_wall.h"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <glm/glm.hpp>
#include <map>
#include <memory>
#include <mutex>
#include <numeric>
#include <utility>
#include <vector>

#include "materials/maths/circle.h"
#include "materials/maths/hash.h"
#include "materials/maths/lanes.h"
#include "materials/optics/fresnel.h"

namespace rakelight {

namespace {

constexpr double kReach = 4;  // thicknesses from an edge beyond which no side is felt
constexpr double kNarrowest = 0.5,
                 kWidest = 8;          // thicknesses: blocks that are wider differ by their middle alone
constexpr int kBeds = 10, kSides = 8;  // times that light is counted to meet them; the last stands for more
constexpr int kEvenWays = 32;          // nodes of length every kEvenStep thicknesses, then ever wider
constexpr int kWays = 40;
constexpr double kEvenStep = 0.25, kWider = 1.35;
constexpr int kPaths = 2048;  // from each place; half as many where much is scattered or a side is far
constexpr int kCoarsePaths = 256;
constexpr int kMostSteps = 400;
constexpr double kBlack = 1e-9, kNothing = 1e-7, kEndlessWay = 1e12;
constexpr double kLeastWeight = 0.1, kKeptWeight = 0.3;  // of what entered
constexpr double kThinnest = 0.0625;                     // scattering depth, the first of the steps by two
constexpr double kThickest = 32;                         // beyond, no light meets a side but at the very edge

double way_node(int k) {
    return k < kEvenWays ? kEvenStep * k : kEvenStep * (kEvenWays - 1) * std::pow(kWider, k - kEvenWays + 1);
}

// A length between two nodes, shared out so that its mean stays.
struct WaySpot {
    std::size_t node;
    double part;
};
WaySpot way_spot(double length) {
    static const double last_even = way_node(kEvenWays - 1), log_wider = std::log(kWider);
    const double x =
        length < last_even ? length / kEvenStep : kEvenWays - 1 + std::log(length / last_even) / log_wider;
    const int k = std::min(static_cast<int>(x), kWays - 2);
    const double low = way_node(k), high = way_node(k + 1);
    return {static_cast<std::size_t>(k), std::clamp((length - low) / (high - low), 0.0, 1.0)};
}

constexpr double squared(double x) {
    return x * x;
}

// The first numbers of all paths, each dimension or pair of them evenly filled and put in an order of its own
// (Latin hypercube sampling: McKay, Beckman, Conover 1979, Technometrics 21, 239; pairs after Roberts 2018,
// "The unreasonable effectiveness of quasirandom sequences").
struct EvenNumbers {
    static constexpr std::size_t kSingles = 4, kPairs = 4;
    std::array<std::vector<double>, kSingles> singles;
    std::array<std::vector<glm::dvec2>, kPairs> pairs;

    EvenNumbers() {
        Rng rng(71);
        const auto shuffle = [&](auto& all) {
            for (std::size_t i = all.size() - 1; i > 0; --i)
                std::swap(all[i], all[static_cast<std::size_t>(rng.unit() * static_cast<double>(i + 1))]);
        };
        for (auto& single : singles) {
            for (int i = 0; i < kPaths; ++i) single.push_back((i + rng.unit()) / kPaths);
            shuffle(single);
        }
        for (auto& pair : pairs) {
            const glm::dvec2 first(rng.unit(), rng.unit());
            for (int i = 0; i < kPaths; ++i)
                pair.push_back(
                    glm::fract(first + glm::dvec2(0.7548776662466927, 0.5698402909980532) * double(i)));
            shuffle(pair);
        }
    }
};

// The numbers of one path, in 0..1: the first few even, all others random. What is even is turned round for
// each place (Cranley and Patterson 1976), so that places do not err alike.
class PathNumbers {
  public:
    PathNumbers(int place, int path)
        : path_(static_cast<std::size_t>(path)),
          shift_(unit_from_hash(hash_combine(72, static_cast<std::uint64_t>(place)))),
          rng_(hash_combine(hash_combine(71, static_cast<std::uint64_t>(place)), path_)) {}
    double random() { return rng_.unit(); }
    double single() {
        if (singles_ >= EvenNumbers::kSingles) return rng_.unit();
        return turned(even().singles[singles_++][path_]);
    }
    glm::dvec2 pair() {
        if (pairs_ < EvenNumbers::kPairs) {
            const glm::dvec2& n = even().pairs[pairs_++][path_];
            return {turned(n.x), turned(n.y)};
        }
        const double first = rng_.unit();
        return {first, rng_.unit()};
    }

  private:
    static const EvenNumbers& even() {
        static const EvenNumbers all;
        return all;
    }
    double turned(double n) const { return n + shift_ < 1 ? n + shift_ : n + shift_ - 1; }

    std::size_t path_, singles_ = 0, pairs_ = 0;
    double shift_;
    Rng rng_;
};

glm::dvec3 matte(PathNumbers& numbers) {
    const glm::dvec2 n = numbers.pair();
    const glm::dvec2 round(circle_point(static_cast<float>(n.y)));
    return {std::sqrt(n.x) * round, std::sqrt(1 - n.x)};
}

// Free path at a scattering depth of one, of so many equally likely ones.
double free_path(double number) {
    static const std::vector<double> all = [] {
        constexpr int kCount = 8192;
        std::vector<double> r;
        for (int i = 0; i < kCount; ++i) r.push_back(-std::log((i + 0.5) / kCount));
        return r;
    }();
    return all[static_cast<std::size_t>(number * static_cast<double>(all.size()))];
}

glm::dvec3 even_way(PathNumbers& numbers) {
    const glm::dvec2 n = numbers.pair();
    const double z = 2 * n.x - 1;
    return {std::sqrt(1 - z * z) * glm::dvec2(circle_point(static_cast<float>(n.y))), z};
}

}  // namespace

double side_share(double edge_per_mm, double bonded_mm, double index) {
    constexpr double kMostShare = 0.6;  // small deep pieces still show some bed
    return std::clamp(mean_tangent(index) * bonded_mm * edge_per_mm / std::numbers::pi, 0.0, kMostShare);
}

double SideBlock::reach_mm() const {
    return std::min(across_mm / 2, kReach * thickness_mm);
}

// Ways of light that enters a block a thickness deep at each place, counted by their lengths in thicknesses
// and how often they met the bed and the filling.
class SideWalk {
  public:
    SideWalk(double index, double bonded, double across, double scattering, int paths)
        : index_(index), bonded_(bonded), across_(across), scattering_(scattering), paths_(paths) {
        // Isolated: whoever waits here holds a lock, and must not begin work that asks for it again.
        tbb::this_task_arena::isolate(
            [&] { tbb::parallel_for(0, kSidePlaces, [&](int place) { fill(place); }); });
    }

    using Kept = std::array<Floats, kWays / kLanes>;

    // Share of the light entering at each place that leaves the face.
    std::array<double, kSidePlaces> albedos(const Kept& kept, double bed, double side) const {
        std::array<double, kSidePlaces> r;
        for (std::size_t place = 0; place < kSidePlaces; ++place) r[place] = albedo(place, kept, bed, side);
        return r;
    }

    double reach() const { return std::min(across_ / 2, kReach); }

  private:
    double albedo(std::size_t place, const Kept& kept, double bed, double side) const {
        const auto& counts = table_[place];
        double sum = 0, by_side = 1;
        const std::size_t most = across_ < kEndlessWay ? kSides : 1;
        for (std::size_t j = 0; j < most; ++j, by_side *= side) {
            double by_bed = by_side;
            for (std::size_t i = 0; i < kBeds; ++i, by_bed *= bed) {
                const std::size_t row = j * kBeds + i;
                if (by_bed * static_cast<double>(share_[place][row]) < kNothing) continue;
                Floats total{};
                for (std::size_t v = 0; v < kept.size(); ++v)
                    total += kept[v] * counts[row * kept.size() + v];
                double lanes = 0;
                for (std::size_t k = 0; k < kLanes; ++k) lanes += static_cast<double>(total[k]);
                sum += by_bed * lanes;
            }
        }
        return sum;
    }

    struct Going {
        glm::dvec3 at, way;
        double weight = 0, length = 0;
        int beds = 0, sides = 0;
    };

    void count(std::vector<double>& counts, const Going& g, double weight) const {
        const WaySpot spot = way_spot(g.length);
        const auto row =
            static_cast<std::size_t>(std::min(g.sides, kSides - 1) * kBeds + std::min(g.beds, kBeds - 1)) *
            kWays;
        counts[row + spot.node] += weight * (1 - spot.part);
        counts[row + spot.node + 1] += weight * spot.part;
    }

    void fill(int place) {
        const double from_edge = reach() * squared(double(place) / (kSidePlaces - 1));
        std::vector<double> counts(static_cast<std::size_t>(kBeds * kSides * kWays));
        const bool half = scattering_ > 0.4 || place > kSidePlaces / 2;
        const int paths = half ? paths_ / 2 : paths_;
        for (int p = 0; p < paths; ++p) {
            PathNumbers numbers(place, p);
            const glm::dvec2 way = numbers.pair();
            const double along = numbers.single(), steep = way.x;
            Going g;
            if (across_ < kEndlessWay)
                g.at = {from_edge, from_edge + along * (across_ - 2 * from_edge), 0};
            else
                g.at = {kEndlessWay / 2, kEndlessWay / 2, 0};
            const double sine = std::sqrt(steep) / index_;
            g.way = {sine * glm::dvec2(circle_point(static_cast<float>(way.y))), std::sqrt(1 - sine * sine)};
            g.weight = 1 - dielectric_reflectance(std::sqrt(1 - steep), index_);
            follow(g, numbers, counts);
        }
        const double all = std::accumulate(counts.begin(), counts.end(), 0.0);
        auto& kept = table_[static_cast<std::size_t>(place)];
        kept.resize(counts.size() / kLanes);
        for (std::size_t k = 0; k < counts.size(); ++k)
            kept[k / kLanes][k % kLanes] = static_cast<float>(counts[k] / all);
        for (std::size_t row = 0; row < kBeds * kSides; ++row)
            share_[static_cast<std::size_t>(place)][row] = static_cast<float>(
                std::accumulate(counts.begin() + static_cast<std::ptrdiff_t>(row * kWays),
                                counts.begin() + static_cast<std::ptrdiff_t>((row + 1) * kWays), 0.0) /
                all);
    }

    void follow(Going g, PathNumbers& numbers, std::vector<double>& counts) const {
        const double least = kLeastWeight * g.weight, kept = kKeptWeight * g.weight;
        const double a_path = scattering_ > 0 ? 1 / scattering_ : 0;
        for (int step = 0; step < kMostSteps && g.weight > 0; ++step) {
            if (g.weight < least)
                g.weight = numbers.random() < g.weight / kept ? kept : 0;  // Russian roulette
            double free = a_path > 0 ? a_path * free_path(numbers.single()) : kEndlessWay;
            int wall = -1;
            for (int axis = 0; axis < 3; ++axis) {
                const double end = g.way[axis] > 0 ? (axis == 2 ? 1 : across_) : 0;
                const double far = (end - g.at[axis]) / g.way[axis];
                if (far < free) free = far, wall = axis;
            }
            free = std::max(free, 0.0);
            g.at += free * g.way;
            g.length += free;
            if (wall < 0) {
                g.way = even_way(numbers);
            } else if (wall < 2) {
                meet_side(g, wall, numbers);
            } else if (g.way.z > 0) {
                ++g.beds;
                g.at.z = 1;
                g.way = matte(numbers) * glm::dvec3(1, 1, -1);
            } else {
                g.at.z = 0;
                const double back = dielectric_reflectance(-g.way.z, 1 / index_);
                if (back < 1) count(counts, g, g.weight * (1 - back));
                g.weight *= back;
                g.way.z = -g.way.z;
            }
        }
        count(counts, g, g.weight);  // what is left, so that none is lost
    }

    void meet_side(Going& g, int axis, PathNumbers& numbers) const {
        const bool low = g.way[axis] < 0;
        g.at[axis] = low ? 0 : across_;
        if (g.at.z < 1 - bonded_) {
            g.way[axis] = -g.way[axis];
            return;
        }
        ++g.sides;
        const glm::dvec3 way = matte(numbers);
        g.way[axis] = low ? way.z : -way.z;
        g.way[1 - axis] = way.x;
        g.way.z = way.y;
    }

    std::array<std::array<float, kBeds * kSides>, kSidePlaces> share_{};  // of the light, [place][row]
    double index_, bonded_, across_, scattering_;
    int paths_;
    std::array<std::vector<Floats>, kSidePlaces> table_;  // [place][(sides, beds, ways)]
};

namespace {

// Mean over a square of what is told at the places, a line between them.
double mean_over(const std::array<double, kSidePlaces>& at, double across, double reach) {
    constexpr int kSteps = 16;  // between two places
    double sum = 0, edge = 0;
    for (int k = 0; k + 1 < kSidePlaces; ++k)
        for (int i = 0; i < kSteps; ++i) {
            const double part = (i + 0.5) / kSteps, next = (i + 1.0) / kSteps;
            const double to = reach * squared((k + next) / (kSidePlaces - 1));
            const double area = squared(across - 2 * edge) - squared(std::max(across - 2 * to, 0.0));
            const auto low = static_cast<std::size_t>(k);
            sum += area * (at[low] + part * (at[low + 1] - at[low]));
            edge = to;
        }
    sum += squared(std::max(across - 2 * reach, 0.0)) * at.back();
    return sum / squared(across);
}

constexpr double kIndexSteps = 200, kBondedSteps = 16, kAcrossSteps = 2;
constexpr int kEndless = 1 << 20;  // the last: of an octave

}  // namespace

// Walks depend on nothing but their key: a process does each once, whatever it renders.
const SideWalk& SideWalks::walk(const Key& key) const {
    static std::mutex mutex;
    static std::map<std::pair<Key, bool>, std::unique_ptr<SideWalk>> done;
    const std::lock_guard lock(mutex);
    auto& walk = done[{key, coarse_}];
    if (!walk)
        walk = std::make_unique<SideWalk>(
            key.index / kIndexSteps, key.bonded / kBondedSteps,
            key.across == kEndless ? kEndlessWay : std::exp2(key.across / kAcrossSteps),
            key.scattering < 0 ? 0 : kThinnest * std::exp2(key.scattering), coarse_ ? kCoarsePaths : kPaths);
    return *walk;
}

namespace {

// A place between two of the steps at which walks are done.
struct Between {
    int below = 0;
    double part = 0;  // of the way to the next
};
Between between(double steps) {
    const double below = std::floor(steps + 1e-9);
    return {static_cast<int>(below), std::max(steps - below, 0.0)};
}

// Of a scattering depth: step -1 scatters nothing.
Between scattering_steps(double depth) {
    if (depth < kThinnest) return {-1, depth / kThinnest};
    return between(std::log2(std::min(depth, kThickest) / kThinnest));
}

// Two walks, with sides and without, and how much they count.
struct Part {
    double weight = 0;
    const SideWalk* sided = nullptr;
    const SideWalk* endless = nullptr;
};

// Light at each place of a block that is `across` thicknesses wide, over that of an endless layer.
std::array<double, kSidePlaces> light_at_places(const std::vector<Part>& parts, const SideWalks::Band& band,
                                                double thick_mm, double across) {
    SideWalk::Kept kept;
    for (std::size_t k = 0; k < kWays; ++k)
        kept[k / kLanes][k % kLanes] =
            static_cast<float>(std::exp(-band.absorption_per_mm * thick_mm * way_node(static_cast<int>(k))));
    std::array<double, kSidePlaces> at{};
    // Light is shared out between the steps, not its share of an endless layer's: dark glass that scatters
    // nothing is black without sides.
    double mean = 0;
    for (const Part& part : parts) {
        const auto sided = part.sided->albedos(kept, band.bed, band.filling);
        const auto endless = part.endless->albedos(kept, band.bed, band.filling);
        // The same numbers walk both, so that their difference errs less than either.
        for (std::size_t place = 0; place < kSidePlaces; ++place)
            at[place] += part.weight * (sided[place] - endless[place]);
        mean += part.weight * std::accumulate(endless.begin(), endless.end(), 0.0) / kSidePlaces;
    }
    for (double& light : at) light = std::max(1 + light / std::max(mean, kBlack), 0.0);
    // Of a wider piece the last place is not the middle of a block, but lies between one side and an endless
    // layer.
    if (across > kWidest) at.back() = 1 + (at.back() - 1) * squared(kWidest / across);
    return at;
}

}  // namespace

std::array<SideLight, kBandCount> SideWalks::light(const SideBlock& block,
                                                   const std::array<Band, kBandCount>& bands) {
    const double thick = block.thickness_mm, across = block.across_mm / thick;
    Key key{};
    key.index = static_cast<int>(std::lround(block.index * kIndexSteps));
    const double bonded = std::clamp(block.bonded_mm / thick, 0.0, 1.0);
    key.bonded = std::max(1, static_cast<int>(std::lround(bonded * kBondedSteps)));
    const Between widths = between(std::log2(std::clamp(across, kNarrowest, kWidest)) * kAcrossSteps);
    if (last_ && last_->block == block && last_->bands == bands) return last_->lights;
    std::array<std::vector<Part>, kBandCount> parts;  // looked up first: walks are for one thread at a time
    for (std::size_t b = 0; b < kBandCount; ++b) {
        const Between depths = scattering_steps(4. / 3 * bands[b].scattering_per_mm * thick);
        for (const int width : {0, 1})
            for (const int depth : {0, 1}) {
                const double weight =
                    (width ? widths.part : 1 - widths.part) * (depth ? depths.part : 1 - depths.part);
                if (weight < 1e-3) continue;
                key.across = widths.below + width;
                key.scattering = depths.below + depth;
                parts[b].push_back({weight, &walk(key), &walk({key.index, 0, kEndless, key.scattering})});
            }
    }
    std::array<SideLight, kBandCount> lights;
    tbb::parallel_for(std::size_t{0}, std::size_t{kBandCount}, [&](std::size_t b) {
        const std::array<double, kSidePlaces> at = light_at_places(parts[b], bands[b], thick, across);
        lights[b].mean = mean_over(at, across, block.reach_mm() / thick);
        for (std::size_t place = 0; place < kSidePlaces; ++place)
            lights[b].profile[place] = at[place] / std::max(lights[b].mean, kBlack);
    });
    last_ = {block, bands, lights};
    return lights;
}

}  // namespace rakelight
