// The pigments, and how much of each, that bring a base to a wanted colour. Every set of at most N pigments
// is tried; within a set the doses are found by sequential quadratic programming (Kraft 1988, as in NLopt) on
// the square of the colour difference, from several starts, within the limits of each pigment and of all
// together.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "materials/stock/recipe.h"

namespace rakelight {

/// A colour to reach: by its curve, or by its Lab for an eye adapted to the lamp.
struct Wanted {
    std::optional<SampledSpectrum> curve;
    Lab lab;  ///< used when there is no curve: the same Lab is then wanted under every lamp
};

struct MatchRequest {
    Wanted wanted;
    Recipe base;  ///< base, thickness and what is behind; its doses are not looked at
    std::vector<Pigment> pigments;
    int most_pigments = 3;  ///< 0..4
    std::string light = "D65";
    double batch_g = 500;                 ///< base as weighed out: powder, or resin, hardener and filler
    double scale_g = 0.01;                ///< what the scale can tell
    std::function<void()> pause = [] {};  ///< called between sets; may throw to stop
};

/// Under one lamp.
struct UnderLamp {
    std::string light;
    Lab lab;
    double delta_e = 0;  ///< CIEDE2000 to what is wanted
};

struct Match {
    Recipe recipe;              ///< as weighed
    std::vector<double> grams;  ///< of each pigment, on the scale's steps
    /// Standard deviation of the grams of each pigment, by the uncertainty of the pigments' curves; 0 when
    /// all are taken as exact.
    std::vector<double> grams_error;
    double colour_error = 0;  ///< CIEDE2000 that the weighed recipe is off by, root mean square, by the same
    double delta_e = 0;       ///< CIEDE2000 under the chosen lamp
    std::vector<UnderLamp> lamps;  ///< the chosen one, then A, D65 and LED-B3
    /// CIEDE2000 that the colour moves when a pigment is weighed 5 % wrong, the worse way; and all at once.
    std::vector<double> moved_by_5_percent;
    double moved_at_worst = 0;
};

/// The wanted colour under the chosen lamp. \throws std::invalid_argument for a lamp nobody knows.
Lab wanted_lab(const MatchRequest& request);

/// Different sets of pigments, best first, at most `count`. A further pigment has to bring 0.05 CIEDE2000.
/// The base alone is one of the sets, so there is always an answer: whether it is near enough is for the
/// caller. \throws std::invalid_argument for a lamp nobody knows, or a batch or scale of 0.
std::vector<Match> match(const MatchRequest& request, std::size_t count = 3);

}  // namespace rakelight
