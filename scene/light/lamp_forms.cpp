#include "scene/light/lamp_forms.h"

#include <array>
#include <vector>

namespace rakelight {

namespace {

EmitterShape disc(const glm::vec2& half_mm) {
    return DiscShape{glm::vec2(half_mm.x)};
}
EmitterShape sphere(const glm::vec2& half_mm) {
    return SphereShape{half_mm.x};
}
EmitterShape rectangle(const glm::vec2& half_mm) {
    return RectangleShape{half_mm};
}
EmitterShape cylinder(const glm::vec2& half_mm) {
    return CylinderShape{half_mm.x, half_mm.y};
}

constexpr auto kForms = std::to_array<LampFormRule>({
    {.form = LampForm::spot,
     .word = "spot",
     .shape = disc,
     .width = {"width", "its diameter", 60},
     .takes_beam = true,
     .takes_snoot = true,
     .in_can = true},
    {.form = LampForm::bulb,
     .word = "bulb",
     .shape = sphere,
     .width = {"width", "its diameter", 60},
     .faces_one_way = false},
    {.form = LampForm::panel,
     .word = "flat panel",
     .shape = rectangle,
     .width = {"width", "how wide it is", 60},
     .height = {"height", "how high it is"}},
    {.form = LampForm::strip,
     .word = "strip",
     .shape = rectangle,
     .width = {"length", "how long the strip is", 0, true},
     .height = {"width", "how wide the strip is", 30},
     .takes_beam = true,
     .is_strip = true},
    {.form = LampForm::lantern,
     .word = "lantern",
     .shape = cylinder,
     .width = {"width", "its diameter", 250},
     .height = {"height", "how high it is"},
     .faces_one_way = false},
    {.form = LampForm::picture_light,
     .word = "picture light",
     .shape = rectangle,
     .width = {"length", "how long the strip is"},
     .height = {"width", "how wide the strip is", 30},
     .takes_beam = true,
     .is_strip = true,
     .over_work = true},
    {.form = LampForm::measured,
     .word = "measured lamp",
     .by_file = true,
     .width = {"width", "its diameter where its file calls it a point", 60}},
});

constexpr bool in_order() {
    for (std::size_t i = 0; i < kForms.size(); ++i)
        if (static_cast<std::size_t>(kForms[i].form) != i) return false;
    return true;
}
static_assert(in_order(), "a row a form, in the order of LampForm");

}  // namespace

std::span<const LampFormRule> lamp_forms() {
    return kForms;
}

const LampFormRule& rule_of(LampForm form) {
    return kForms.at(static_cast<std::size_t>(form));
}

std::span<const std::string> lamp_form_words() {
    static const std::vector<std::string> words = [] {
        std::vector<std::string> said;
        for (const LampFormRule& rule : kForms)
            if (!rule.by_file) said.emplace_back(rule.word);
        return said;
    }();
    return words;
}

LampForm lamp_form_of_word(std::size_t index) {
    for (const LampFormRule& rule : kForms)
        if (!rule.by_file && index-- == 0) return rule.form;
    return LampForm::spot;
}

std::string lamp_forms_that(bool LampFormRule::*holds) {
    std::vector<std::string_view> words;
    for (const LampFormRule& rule : kForms)
        if (rule.*holds) words.push_back(rule.word);
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 < words.size() ? ", " : " or ") + std::string(words[i]);
    return text;
}

}  // namespace rakelight
