#include "output/system/interrupt.h"

#include <unistd.h>

#include <atomic>
#include <csignal>

namespace rakelight {

namespace {

std::atomic<bool> signalled = false;
static_assert(std::atomic<bool>::is_always_lock_free);

extern "C" void note_signal(int) {
    signalled.store(true, std::memory_order_relaxed);
}

}  // namespace

void watch_for_interrupt() {
    struct sigaction action {};
    action.sa_handler = note_signal;
    action.sa_flags = SA_RESTART;
    sigaction(SIGINT, &action, nullptr);
    sigaction(SIGTERM, &action, nullptr);
    std::signal(SIGXFSZ, SIG_IGN);
}

bool interrupted() {
    return signalled.load(std::memory_order_relaxed);
}

void stop_if_interrupted() {
    if (interrupted()) throw Interrupted{};
}

}  // namespace rakelight
