// Faults of the hand on the drawings of a panel as laid: a ring and a letter at each, and what they mean.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>

#include "output/lay/drawing.h"

namespace rakelight {

namespace {

// Told apart by their letters too.
constexpr std::array<Rgb8, kFaultKinds> kInk{{{214, 39, 40},
                                              {200, 0, 140},
                                              {31, 119, 180},
                                              {255, 127, 14},
                                              {44, 140, 44},
                                              {148, 103, 189},
                                              {140, 86, 75},
                                              {0, 150, 160},
                                              {120, 120, 0}}};

Ring circle(const glm::dvec2& at, double radius) {
    constexpr int kSides = 24;
    Ring ring;
    for (int i = 0; i < kSides; ++i) {
        const double turn = 2 * std::numbers::pi * i / kSides;
        ring.push_back(at + radius * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    return ring;
}

}  // namespace

std::vector<TracedLayer> fault_layers(const LayingFaults& faults, const OnSheet& place, double type_mm,
                                      const glm::dvec2& foot_mm) {
    std::vector<TracedLayer> layers;
    TracedLayer key{"key of faults", {}, {}, {}, {}};
    for (const FaultWord& word : fault_words()) {
        const auto& ink = kInk[static_cast<std::size_t>(word.kind)];
        TracedLayer layer{std::string(word.word), {{}, ink, type_mm / 7, {}}, {}, {}, {}, 0.15 * type_mm};
        for (const Fault& fault : faults.all) {
            if (fault.kind != word.kind) continue;
            const glm::dvec2 at = place(fault.at_mm);
            layer.shapes.push_back({{circle(at, 1.3 * type_mm)}, true, {}, ""});
            layer.texts.push_back({std::string(word.letter), at + type_mm * glm::dvec2(1.1, -0.9), type_mm,
                                   true, Align::left, from_bytes(ink)});
        }
        key.texts.push_back({fmt::format("{}  {} {}", word.letter, faults.of(word.kind), word.word),
                             foot_mm + glm::dvec2(0, 1.6 * type_mm * static_cast<double>(key.texts.size())),
                             type_mm, true, Align::left, from_bytes(ink)});
        if (!layer.shapes.empty()) layers.push_back(std::move(layer));
    }
    layers.push_back(std::move(key));
    return layers;
}

}  // namespace rakelight
