// The tables of keys of a file of samples.
#pragma once

#include "scene/text/key_table.h"

namespace rakelight::sample_keys {

extern const KeyTable file, photograph, chart, lamp, spot, samples, sample;

/// Pixels of a picture.
inline constexpr Range kPixels{0, 100'000};

/// Millimetres on the table that the printed sheet lies on.
inline constexpr Range kOnSheet_mm{-5'000, 5'000};

}  // namespace rakelight::sample_keys
