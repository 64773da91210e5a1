// The error of a mean from the variance of batch means: samples that follow each other are spread evenly
// (sampler.h), so that batches of eight differ by less than single samples would let expect (Law and Kelton,
// Simulation Modeling and Analysis, "batch means"; from memory).
#pragma once

#include <algorithm>
#include <cmath>

namespace rakelight {

inline constexpr int kSamplesARound = 16;
inline constexpr int kSamplesABatch = kSamplesARound / 2;

/// Into how many batches samples fall that are taken in rounds: two a round, the last of them may be shorter.
inline int batches_of(int samples) {
    return (samples + kSamplesABatch - 1) / kSamplesABatch;
}

/// Sums over batches of samples.
struct BatchSums {
    double sum = 0;
    double squared = 0;  ///< sum of the squares of the batches' sums, each over its number of samples

    /// Takes in a batch that sums to `batch`.
    void add(double batch, int samples) {
        sum += batch;
        squared += batch * batch / samples;
    }

    /// Variance of the mean of so many samples; of a single batch the square of the mean itself.
    double variance(int samples) const {
        const double mean = sum / samples;
        const int batches = batches_of(samples);
        if (batches < 2) return mean * mean;
        return std::max(0.0, squared - sum * mean) / (batches - 1) / samples;
    }

    /// Standard error of that mean. The root of an estimated variance is too low in the mean, by this factor
    /// of the normal law (Cureton 1968: unbiased estimation of the standard deviation).
    double error(int samples) const {
        const int batches = batches_of(samples);
        return std::sqrt(variance(samples)) * (batches < 2 ? 1 : 1 + 0.25 / (batches - 1));
    }
};

}  // namespace rakelight
