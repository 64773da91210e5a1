// How many threads all of the program may work with.
#pragma once

#include <tbb/global_control.h>

#include <optional>

namespace rakelight {

/// Holds while it lives. `threads`: 0 = as many as the machine has.
class ThreadLimit {
  public:
    explicit ThreadLimit(int threads) {
        if (threads > 0)
            limit_.emplace(tbb::global_control::max_allowed_parallelism, static_cast<std::size_t>(threads));
    }

  private:
    std::optional<tbb::global_control> limit_;
};

}  // namespace rakelight
