// The tone curve of a camera, undone: from what a channel of a picture says to light, by the grey patches of
// a chart. Monotone: piecewise cubics through the greys (Fritsch and Butland 1984) in the logarithms of both,
// where a power law is a straight line; beyond the last grey the line goes on.
#pragma once

#include <optional>
#include <vector>

namespace rakelight {

/// What a grey patch reads and how much light it sends, in any unit; both above 0.
struct GreyPoint {
    double reading = 0;
    double light = 0;
};

class ToneCurve {
  public:
    /// Light = reading x factor, as of a raw file.
    explicit ToneCurve(double factor = 1) : factor_(factor) {}
    /// Through at least four greys, lightest or darkest first.
    /// \throws std::invalid_argument when there are fewer, or a lighter one does not read more.
    explicit ToneCurve(std::vector<GreyPoint> greys);

    /// Light of a reading; 0 for 0 and less.
    double light(double reading) const;

  private:
    struct Node {
        double reading_log, light_log, slope;
    };
    double factor_ = 1;
    std::vector<Node> nodes_;  ///< rising; empty = linear
};

}  // namespace rakelight
