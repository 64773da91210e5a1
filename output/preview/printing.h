// How a film becomes a PNG, as the options of the commands say.
#pragma once

namespace rakelight {

/// Help of the option --as-traced, alike in every command that has it.
inline constexpr const char* kAsTracedHelp =
    "Print the light as traced, grain and all, without the filter that calms it";

/// What a PNG says of itself under the key "Filter".
inline constexpr const char* kFilterKey = "Filter";
inline constexpr const char* filter_words(bool filtered) {
    return filtered ? "the grain of the tracing is calmed; glints are as traced" : "none, as traced";
}

struct Printing {
    bool glow = true;        ///< spread glints, see eye_glare.h
    bool as_traced = false;  ///< leave the filter out, see filter.h

    Printing(bool with_glow = true, bool traced = false) : glow(with_glow), as_traced(traced) {}
};

}  // namespace rakelight
