// tbb::global_control for parallel_for.h beside it.
#pragma once

#include <cstddef>

#include "tbb/task_arena.h"

namespace tbb {

class global_control {
  public:
    enum parameter { max_allowed_parallelism };
    global_control(parameter, std::size_t threads) : before_(watched::arena_threads) {
        watched::arena_threads = static_cast<int>(threads);
    }
    ~global_control() { watched::arena_threads = before_; }

  private:
    int before_;
};

}  // namespace tbb
