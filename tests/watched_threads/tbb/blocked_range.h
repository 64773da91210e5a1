// tbb::blocked_range for parallel_for.h beside it.
#pragma once

#include <algorithm>
#include <cstddef>

namespace tbb {

template <class Value>
class blocked_range {
  public:
    blocked_range(Value first, Value end, std::size_t grain = 1)
        : first_(first), end_(end), grain_(std::max<std::size_t>(grain, 1)) {}
    Value begin() const { return first_; }
    Value end() const { return end_; }

    /// How many ranges of a grain it falls into, and the one of that number.
    std::size_t parts() const { return (static_cast<std::size_t>(end_ - first_) + grain_ - 1) / grain_; }
    blocked_range part(std::size_t i) const {
        const Value from = static_cast<Value>(first_ + static_cast<Value>(i * grain_));
        return {from, std::min(end_, static_cast<Value>(from + static_cast<Value>(grain_))), grain_};
    }

  private:
    Value first_, end_;
    std::size_t grain_;
};

}  // namespace tbb
