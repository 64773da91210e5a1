// tbb::task_arena for parallel_for.h beside it: so many threads for the loops begun within.
#pragma once

namespace tbb {

namespace watched {
inline thread_local int arena_threads = 3;  // more than this machine may have: the scheduler interleaves them
}

class task_arena {
  public:
    static constexpr int automatic = -1;
    explicit task_arena(int threads = automatic) : threads_(threads > 0 ? threads : 3) {}
    template <class Work>
    auto execute(Work&& work) {
        struct Back {
            int before;
            ~Back() { watched::arena_threads = before; }
        } const back{watched::arena_threads};
        watched::arena_threads = threads_;
        return work();
    }

  private:
    int threads_;
};

}  // namespace tbb
