#include "output/portfolio/print_hash.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string>

#include "output/film/scene_hash.h"
#include "output/system/safe_file.h"
#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/text/layout_tree.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

// The tree written out so that no two trees are written alike.
void write(const YamlValue& value, std::string& out) {
    fmt::format_to(std::back_inserter(out), "{}:{}:{}", static_cast<int>(value.shape), value.text.size(),
                   value.text);
    for (const YamlValue& item : value.items) write(item, out);
    for (const YamlMember& member : value.members) {
        write(member.key, out);
        write(member.value, out);
    }
    out += ';';
}

std::string number_words(const glm::dvec3& v) {
    return fmt::format("{} {} {} ", v.x, v.y, v.z);
}

// Of each, every member by its name: a new one breaks the line, and is counted or left out on purpose. Left
// out are names, places in the file and what other members follow from.
std::string words_of(const Viewpoint& view) {
    const auto& [name, walk, eye_mm, look_at_mm, view_width_mm, focal_length_mm, perspective, place] = view;
    return number_words(eye_mm) + number_words(look_at_mm) +
           fmt::format("{} {}", view_width_mm, static_cast<int>(perspective));
}

std::string words_of(const Lens& lens) {
    const auto& [aperture_mm, focus_mm] = lens;
    return fmt::format(" {} {}", aperture_mm, focus_mm);
}

std::string words_of(const StandInPlace& thing) {
    const auto& [what, at_mm, turn_deg, height_mm] = thing;
    return fmt::format(" {} {} {} {} {}", static_cast<int>(what), at_mm.x, at_mm.y, turn_deg, height_mm);
}

// The length goes first, so that "a b" and "c" are not "a" and "b c".
std::string words_of(const std::string& text) {
    return fmt::format(" {}:{}", text.size(), text);
}

}  // namespace

std::uint64_t panel_hash(const Layout& layout) {
    const LayoutTree& tree = *layout.sources.tree;
    YamlValue document = tree.root;
    std::erase_if(document.members, [](const YamlMember& m) {
        return std::find(keys::kDeliverables.begin(), keys::kDeliverables.end(), m.key.text) !=
               keys::kDeliverables.end();
    });
    std::string text;
    write(document, text);
    for (const std::string& file : layout.sources.files) {
        if (holds(tree.files, file)) continue;  // in the tree
        const std::string bytes = read_file(file);
        fmt::format_to(std::back_inserter(text), "{}:", bytes.size());
        text += bytes;
    }
    return fnv1a(text);
}

std::uint64_t print_hash(std::uint64_t panel, std::string_view version, const PlannedShot& plan,
                         const Portfolio& portfolio) {
    const auto& [shot, name, title, note, light, layout, picture, lens, in_room] = plan;
    std::string words = words_of(layout.views.viewpoints.front()) + words_of(lens) +
                        fmt::format(" {}", portfolio.dpi) + words_of(title) + words_of(light);
    if (in_room)
        for (const StandInPlace& thing : portfolio.scale_figures) words += words_of(thing);
    return fnv1a(words, scene_hash(panel, version, picture));
}

}  // namespace rakelight
