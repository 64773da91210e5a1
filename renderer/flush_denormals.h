// Flush-to-zero mode of the processor: numbers too small for full precision count as nothing.
#pragma once

#include <pmmintrin.h>
#include <xmmintrin.h>

namespace rakelight {

/// Flushes denormal numbers to zero on this thread while it lives: Embree asks for it, and they cost time.
class FlushDenormals {
  public:
    FlushDenormals() : before_(_mm_getcsr()) {
        _MM_SET_FLUSH_ZERO_MODE(_MM_FLUSH_ZERO_ON);
        _MM_SET_DENORMALS_ZERO_MODE(_MM_DENORMALS_ZERO_ON);
    }
    ~FlushDenormals() { _mm_setcsr(before_); }
    FlushDenormals(const FlushDenormals&) = delete;
    FlushDenormals& operator=(const FlushDenormals&) = delete;

  private:
    unsigned before_;
};

}  // namespace rakelight
