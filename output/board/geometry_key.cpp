#include "output/board/geometry_key.h"

#include <algorithm>
#include <array>

#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/text/tree_words.h"

namespace rakelight {

namespace {

constexpr std::array<std::string_view, 7> kOnlyLight{"lamps",    "daylight", "viewpoints", "pictures",
                                                     "pigments", "tints",    "beside"};
constexpr std::array<std::string_view, 3> kOnlyColour{"bed", "grout", "zone"};

template <class List>
bool among(std::string_view key, const List& list) {
    return std::find(list.begin(), list.end(), key) != list.end();
}

}  // namespace

std::string geometry_key(const YamlValue& tree, const Layout& layout) {
    // Pictures are matched to the stock over its bed; faces may lean towards lamps and viewers.
    const bool by_colour = std::any_of(layout.fields.begin(), layout.fields.end(),
                                       [](const Field& f) { return f.picture.has_value(); });
    bool leans = false;
    for (const YamlMember& m : tree.members)
        if (m.key.text == "fields")
            for (const YamlValue& field : m.value.items)
                for (const YamlMember& key : field.members) leans = leans || key.key.text == "lean towards";
    const auto at_top = [&](std::string_view word) {
        if (among(word, keys::kDeliverables)) return true;
        if (leans && (word == "lamps" || word == "viewpoints")) return false;
        if (by_colour && (word == "tints" || word == "pigments")) return false;
        return among(word, kOnlyLight);
    };
    const auto of_field = [&](std::string_view word) {
        return among(word, kOnlyColour) && !(by_colour && word == "bed");
    };
    std::string text;
    for (const YamlMember& m : tree.members) {
        if (at_top(m.key.text)) continue;
        text += m.key.text;
        if (m.key.text == "fields")
            for (const YamlValue& field : m.value.items) add_tree_words(field, text, of_field);
        else
            add_tree_words(m.value, text);
    }
    // Seams run between fillings that differ, and cement stands rougher than resin.
    for (const Field& field : layout.fields) {
        const auto same = [&](const Field& f) { return filling_of(f) == filling_of(field); };
        const auto first = std::find_if(layout.fields.begin(), layout.fields.end(), same);
        text += std::to_string(first - layout.fields.begin());
        text.push_back(field.grout ? 'f' : 'o');
        text += std::to_string(static_cast<int>(layout.tints[filling_of(field)].kind));
    }
    return text;
}

std::string light_key(const YamlValue& tree) {
    constexpr std::array<std::string_view, 6> kLight{"lamps", "daylight", "light all round",
                                                     "light", "set-ups",  "room"};
    std::string text;
    for (const YamlMember& m : tree.members)
        if (among(m.key.text, kLight)) {
            text += m.key.text;
            add_tree_words(m.value, text);
        }
    return text;
}

std::string tree_text(const YamlValue& tree) {
    std::string text;
    add_tree_words(tree, text, [](std::string_view word) { return among(word, keys::kDeliverables); });
    return text;
}

}  // namespace rakelight
