// tbb::parallel_for by plain threads, in the place of TBB's own header where the thread sanitizer watches: it
// sees what std::thread orders, and takes what TBB's scheduler, compiled without it, orders for a race. Loops
// within loops get threads of their own down to the second.
#pragma once

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "tbb/blocked_range.h"
#include "tbb/task_arena.h"

namespace tbb {

struct simple_partitioner {};

namespace watched {

inline thread_local int depth = 0;

/// Calls `part(i)` for 0 <= i < count, each once, by several threads in no order.
template <class Part>
void share_out(std::size_t count, const Part& part) {
    constexpr int kDeepest = 2;
    if (count < 2 || depth >= kDeepest || arena_threads < 2) {
        for (std::size_t i = 0; i < count; ++i) part(i);
        return;
    }
    std::atomic<std::size_t> next = 0;
    std::exception_ptr thrown;
    std::mutex throwing;
    const int within = depth + 1, all = arena_threads;
    const auto work = [&] {
        depth = within;
        arena_threads = all;
        try {
            // Relaxed: the counter must not order what the parts do.
            for (std::size_t i; (i = next.fetch_add(1, std::memory_order_relaxed)) < count;) part(i);
        } catch (...) {
            const std::scoped_lock lock(throwing);
            if (!thrown) thrown = std::current_exception();
            next.store(count, std::memory_order_relaxed);
        }
    };
    std::vector<std::thread> threads;
    for (int t = 0; t < std::min<int>(all, static_cast<int>(count)); ++t) threads.emplace_back(work);
    for (std::thread& thread : threads) thread.join();
    if (thrown) std::rethrow_exception(thrown);
}

}  // namespace watched

template <class Index, class Body>
void parallel_for(Index first, Index end, const Body& body) {
    if (!(first < end)) return;
    watched::share_out(static_cast<std::size_t>(end - first),
                       [&](std::size_t i) { body(static_cast<Index>(first + static_cast<Index>(i))); });
}

template <class Value, class Body>
void parallel_for(const blocked_range<Value>& range, const Body& body, simple_partitioner = {}) {
    watched::share_out(range.parts(), [&](std::size_t i) { body(range.part(i)); });
}

}  // namespace tbb
