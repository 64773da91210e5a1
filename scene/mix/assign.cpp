#include "scene/mix/assign.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <queue>
#include <utility>

namespace rakelight {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

class Exchange {
  public:
    Exchange(std::span<const float> costs, std::span<const std::size_t> limits)
        : costs_(costs), limits_(limits), m_(limits.size()), held_(m_, 0), queues_(m_ * m_) {
        const std::size_t pieces = m_ ? costs.size() / m_ : 0;
        choice_.resize(pieces);
        for (std::size_t i = 0; i < pieces; ++i) {
            const auto row = costs.subspan(i * m_, m_);
            choice_[i] = static_cast<std::uint32_t>(std::min_element(row.begin(), row.end()) - row.begin());
            ++held_[choice_[i]];
        }
    }

    // Until no material is over its limit.
    void settle() {
        for (std::size_t i = 0; i < choice_.size(); ++i) offer(static_cast<std::uint32_t>(i));
        for (std::size_t over = 0; over < m_; ++over)
            while (held_[over] > limits_[over]) {
                reckon();
                for (std::size_t a = over; room_after_[a] != a;) {
                    const std::size_t b = room_after_[a];
                    const std::uint32_t piece = queues_[a * m_ + b].top().second;
                    choice_[piece] = static_cast<std::uint32_t>(b);
                    --held_[a];
                    ++held_[b];
                    offer(piece);
                    a = b;
                }
            }
        reckon();
    }

    std::vector<std::uint32_t>& choice() { return choice_; }
    const std::vector<double>& to_room() const { return to_room_; }

  private:
    using Move = std::pair<double, std::uint32_t>;
    using Queue = std::priority_queue<Move, std::vector<Move>, std::greater<>>;

    double cost(std::uint32_t piece, std::size_t m) const { return costs_[piece * m_ + m]; }

    void offer(std::uint32_t piece) {
        const std::size_t a = choice_[piece];
        for (std::size_t b = 0; b < m_; ++b)
            if (b != a) queues_[a * m_ + b].emplace(cost(piece, b) - cost(piece, a), piece);
    }

    // The least that a piece of `a` loses when it takes `b`; moves of pieces that have left `a` are dropped.
    double step(std::size_t a, std::size_t b) {
        Queue& queue = queues_[a * m_ + b];
        while (!queue.empty() && choice_[queue.top().second] != a) queue.pop();
        return queue.empty() ? kFar : queue.top().first;
    }

    // Cheapest chains from every material to one with room (Bellman, Ford).
    void reckon() {
        to_room_.assign(m_, kFar);
        room_after_.resize(m_);
        for (std::size_t a = 0; a < m_; ++a) {
            room_after_[a] = a;
            if (held_[a] < limits_[a]) to_room_[a] = 0;
        }
        std::vector<double> steps(m_ * m_, kFar);
        for (std::size_t a = 0; a < m_; ++a)
            for (std::size_t b = 0; b < m_; ++b)
                if (a != b) steps[a * m_ + b] = step(a, b);
        bool better = true;
        for (std::size_t round = 0; better && round < m_; ++round) {
            better = false;
            for (std::size_t a = 0; a < m_; ++a) {
                if (held_[a] < limits_[a]) continue;
                for (std::size_t b = 0; b < m_; ++b) {
                    const double through = steps[a * m_ + b] + to_room_[b];
                    // Rounding must not send a chain in a circle.
                    if (a == b || !(through < to_room_[a] - 1e-9)) continue;
                    to_room_[a] = through;
                    room_after_[a] = b;
                    better = true;
                }
            }
        }
    }

    std::span<const float> costs_;
    std::span<const std::size_t> limits_;
    std::size_t m_;
    std::vector<std::size_t> held_;
    std::vector<Queue> queues_;
    std::vector<std::uint32_t> choice_;
    std::vector<double> to_room_;
    std::vector<std::size_t> room_after_;
};

}  // namespace

Assignment assign(std::span<const float> costs, std::span<const std::size_t> limits) {
    Exchange exchange(costs, limits);
    const std::size_t pieces = exchange.choice().size();
    Assignment result;
    result.price.assign(limits.size(), 0.0);
    std::size_t room = 0;
    for (const std::size_t limit : limits) room += std::min(limit, pieces);  // no overflow: few materials
    result.enough = room >= pieces;
    const bool limited =
        std::any_of(limits.begin(), limits.end(), [&](std::size_t limit) { return limit < pieces; });
    if (result.enough && limited) {
        exchange.settle();
        for (std::size_t m = 0; m < limits.size(); ++m)
            // Nothing has room left when stock and pieces are equal: then no price is better than another.
            if (exchange.to_room()[m] < kFar) result.price[m] = std::max(0.0, exchange.to_room()[m]);
    }
    result.choice = std::move(exchange.choice());
    return result;
}

}  // namespace rakelight
