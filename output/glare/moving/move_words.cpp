#include "output/glare/moving/move_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/model/lamp_called.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"

namespace rakelight {

namespace {

constexpr std::size_t kLean = 0, kHeight = 1, kFirstTrack = 2;

std::string length_words(double mm) {
    return std::abs(mm) >= 1000 ? fmt::format("{:.3g} m", std::abs(mm) / 1000)
                                : fmt::format("{:.3g} cm", std::abs(mm) / 10);
}

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return text;
}

// The larger part first.
std::string way(const glm::dvec3& by_mm) {
    struct Part {
        double mm;
        const char *plus, *minus;
    };
    std::vector<Part> parts{{by_mm.z, "away from the panel's wall", "towards the panel's wall"},
                            {by_mm.x, "to the right", "to the left"},
                            {by_mm.y, "up", "down"}};
    std::stable_sort(parts.begin(), parts.end(),
                     [](const Part& a, const Part& b) { return std::abs(a.mm) > std::abs(b.mm); });
    std::vector<std::string> words;
    for (const Part& part : parts)
        if (std::abs(part.mm) >= 5)
            words.push_back(length_words(part.mm) + " " + (part.mm > 0 ? part.plus : part.minus));
    return listed(words);
}

std::string aim_words(const glm::dvec3& aim_mm, const Panel& panel) {
    const glm::dvec3 off = aim_mm - panel_centre_mm(panel);
    std::vector<std::string> words;
    if (std::abs(off.y) >= 5) words.push_back(length_words(off.y) + (off.y > 0 ? " above" : " below"));
    if (std::abs(off.x) >= 5)
        words.push_back(length_words(off.x) + (off.x > 0 ? " to the right of" : " to the left of"));
    return words.empty() ? "the middle of the panel" : listed(words) + " the middle of the panel";
}

const LampTrack& track_of(std::size_t knob, const MoveBounds& bounds) {
    return bounds.lamps[knob - kFirstTrack];
}

std::string lamp_words(const Layout& present, const MoveChoice& choice, const LampTrack& track) {
    const Lamp& now = *lamp_called(present.on.lamps, track.lamp);
    const Lamp& then = *lamp_called(choice.how.lamps, track.lamp);
    const glm::dvec3 by = then.at_mm - now.at_mm;
    const bool turned = glm::distance(then.aim_mm - then.at_mm, now.aim_mm - now.at_mm) > 5;
    std::string text;
    if (glm::length(by) >= 5) text = "Move " + track.lamp + " by " + way(by);
    if (track.aim == AimGoes::swept && turned)
        text += (text.empty() ? "Aim " + track.lamp + " at " : ", and aim it at ") +
                aim_words(then.aim_mm, present.panel);
    else if (track.aim == AimGoes::kept && turned)
        text += ", still aimed at the same place";
    return text + ".";
}

std::string at_words(const glm::dvec3& p) {
    return fmt::format("[{:.0f}, {:.0f}, {:.0f}]", p.x, p.y, p.z);
}

}  // namespace

std::vector<std::string> advice_for(const Layout& present, const MoveChoice& choice,
                                    const MoveBounds& bounds) {
    std::vector<std::string> sentences;
    for (const std::size_t knob : choice.changed)
        if (knob >= kFirstTrack) sentences.push_back(lamp_words(present, choice, track_of(knob, bounds)));
    for (const std::size_t knob : choice.changed) {
        if (knob == kLean)
            sentences.push_back(
                choice.how.lean_deg == 0
                    ? "Hang the panel flat, without its lean."
                    : fmt::format(
                          "Lean the top of the panel forward by {:.3g} degrees (now {:.3g}): {:.0f} mm "
                          "over its height.",
                          choice.how.lean_deg, present.panel.lean_deg,
                          present.panel.height_mm * std::sin(glm::radians(choice.how.lean_deg))));
        if (knob == kHeight) {
            const double by = choice.how.height_mm - present.panel.centre_height_mm;
            sentences.push_back(fmt::format("Hang the panel {} {}, its middle {:.1f} cm above the floor.",
                                            length_words(by), by > 0 ? "higher" : "lower",
                                            choice.how.height_mm / 10));
        }
    }
    return sentences;
}

std::string changes_in_short(const Layout&, const MoveChoice& choice, const MoveBounds& bounds) {
    std::vector<std::string> words;
    for (const std::size_t knob : choice.changed)
        words.push_back(knob == kLean     ? fmt::format("lean {:.3g} degrees", choice.how.lean_deg)
                        : knob == kHeight ? fmt::format("middle at {:.1f} cm", choice.how.height_mm / 10)
                                          : track_of(knob, bounds).lamp);
    return words.empty() ? "as it is" : listed(words);
}

std::vector<std::string> keys_for(const Lighting& light, const MoveChoice& choice, const MoveBounds& bounds) {
    std::vector<std::string> lines;
    for (const std::size_t knob : choice.changed) {
        if (knob == kLean) lines.push_back(fmt::format("room: lean: {:.6g}", choice.how.lean_deg));
        if (knob == kHeight)
            lines.push_back(fmt::format("room: panel centre height: {:.6g}", choice.how.height_mm));
        if (knob < kFirstTrack) continue;
        const Lamp& now = *lamp_called(light.lamps, track_of(knob, bounds).lamp);
        const Lamp& then = *lamp_called(choice.how.lamps, now.name);
        lines.push_back(fmt::format("lamps: {}: at: {}", now.name, at_words(then.at_mm)));
        if (glm::distance(now.aim_mm, then.aim_mm) > 0.5)
            lines.push_back(fmt::format("lamps: {}: aim: {}", now.name, at_words(then.aim_mm)));
    }
    return lines;
}

}  // namespace rakelight
