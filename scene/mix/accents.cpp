#include "scene/mix/accents.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/mix/mixing.h"
#include "scene/mix/net.h"

namespace rakelight {

namespace {

constexpr std::size_t kHandful = 24;  // for each one already chosen, up to this many draws
constexpr double kOffEdge = 2.4;      // a distance from the edge counts as this many from another accent
constexpr double kNearEnough = 0.88;  // of an even spread: an accent so far from the others stays
constexpr int kRounds = 24;
constexpr double kDistancesARound = 2e7;
constexpr std::size_t kMostMoved = 2000;  // more stand so close that nobody sees where

// Distance between neighbours of a hexagonal lattice of so many.
double even_spacing_mm(double mm2, double count) {
    return std::sqrt(2 / std::sqrt(3.0) * std::max(1.0, mm2) / std::max(1.0, count));
}

class Spread {
  public:
    Spread(const Field& field, const Region& ground, std::uint64_t seed, std::span<const Piece> pieces,
           std::size_t count)
        : seed_(seed) {
        const double area = area_mm2(ground);
        all_mm_ = even_spacing_mm(area, static_cast<double>(count));
        for (const Accent& accent : field.accents) own_mm_.push_back(even_spacing_mm(area, accent.count));
        for (const Piece& piece : pieces) centres_.push_back(centroid(piece.outline_mm));
        order_ = mix_net(centres_, seed).order;
        const EdgeIndex edge(ground, std::max(all_mm_, 1.0));
        for (const auto& p : centres_)
            off_edge_.push_back(std::min(1.0, kOffEdge * edge.inside_mm(p) / all_mm_));
        taken_.assign(pieces.size(), 0);
    }

    // Adds the best of a handful.
    void choose(std::size_t accent) {
        const std::size_t k = chosen_.size();
        const std::size_t draws = std::min(centres_.size(), kHandful * (k + 1));
        chosen_.push_back({centres_.size(), accent});
        place(k, draws, k + 1);
        for (std::size_t d = 0; chosen_[k].piece == centres_.size(); ++d)  // all drawn were taken
            if (!taken_[order_[d]]) chosen_[k].piece = order_[d];
        taken_[chosen_[k].piece] = 1;
    }

    // Moves what lies too near to something.
    void relax() {
        const double n = static_cast<double>(chosen_.size());
        const auto draws = static_cast<std::size_t>(
            std::clamp(kDistancesARound / (n * n), 64.0, static_cast<double>(centres_.size())));
        bool moved = chosen_.size() <= kMostMoved;
        for (int round = 0; round < kRounds && moved; ++round) {
            moved = false;
            for (std::size_t k = 0; k < chosen_.size(); ++k) {
                const std::size_t before = chosen_[k].piece;
                if (room(k, before, 0) >= kNearEnough) continue;
                taken_[before] = 0;
                place(k, draws, static_cast<std::uint64_t>(round) * kMostMoved + k + 1'000'000);
                taken_[chosen_[k].piece] = 1;
                moved = moved || chosen_[k].piece != before;
            }
        }
    }

    std::vector<ChosenAccent> take() { return std::move(chosen_); }

  private:
    // How far piece `i` lies from all accents but the k-th and from the edge, as shares of an even spread; no
    // matter how little once it is not above `least`.
    double room(std::size_t k, std::size_t i, double least) const {
        const std::size_t accent = chosen_[k].accent;
        double room = off_edge_[i];
        for (std::size_t other = 0; other < chosen_.size() && room > least; ++other) {
            if (other == k) continue;
            const double even_mm =
                chosen_[other].accent == accent ? std::max(all_mm_, own_mm_[accent]) : all_mm_;
            room = std::min(room, glm::distance(centres_[chosen_[other].piece], centres_[i]) / even_mm);
        }
        return room;
    }

    // Puts the k-th accent where there is most room, of so many places by chance; it stays if none is better.
    void place(std::size_t k, std::size_t draws, std::uint64_t chance) {
        ChosenAccent& own = chosen_[k];
        double most = own.piece < centres_.size() ? room(k, own.piece, -1) : -1;
        const bool every = draws == centres_.size();
        for (std::size_t d = 0; d < draws; ++d) {
            const std::uint64_t h = hash_combine(hash_combine(seed_, chance), d);
            const std::uint32_t i = order_[every ? d : h % order_.size()];
            if (taken_[i]) continue;
            if (const double here = room(k, i, most); here > most) {
                most = here;
                own.piece = i;
            }
        }
    }

    std::uint64_t seed_;
    double all_mm_ = 0;
    std::vector<double> own_mm_;
    std::vector<glm::dvec2> centres_;
    std::vector<std::uint32_t> order_;
    std::vector<double> off_edge_;
    std::vector<char> taken_;
    std::vector<ChosenAccent> chosen_;
};

}  // namespace

std::vector<ChosenAccent> choose_accents(const Field& field, const Region& ground, std::uint64_t seed,
                                         std::span<const Piece> pieces) {
    std::vector<std::size_t> left;
    std::size_t count = 0;
    for (const auto& accent : field.accents) {
        left.push_back(static_cast<std::size_t>(accent.count));
        count += left.back();
    }
    count = std::min(count, pieces.size());
    if (count == 0) return {};
    Spread spread(field, ground, seed, pieces, count);
    for (std::size_t k = 0; k < count; ++k) {
        // The accent that lags most behind its share of those chosen so far.
        std::size_t accent = 0;
        double most = -1;
        for (std::size_t a = 0; a < left.size(); ++a)
            if (const double lag = static_cast<double>(left[a]) / field.accents[a].count;
                left[a] && lag > most) {
                most = lag;
                accent = a;
            }
        --left[accent];
        spread.choose(accent);
    }
    spread.relax();
    return spread.take();
}

}  // namespace rakelight
