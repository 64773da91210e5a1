#include "output/portfolio/print_hash.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string>

#include "output/film/scene_hash.h"
#include "output/system/safe_file.h"
#include "scene/reading/deliverable_section.h"

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

}  // namespace

std::uint64_t panel_hash(const Layout& layout) {
    YamlValue document = parse_yaml(layout_file_text(layout.path), layout.path);
    std::erase_if(document.members, [](const YamlMember& m) {
        return std::find(kDeliverableKeys.begin(), kDeliverableKeys.end(), m.key.text) !=
               kDeliverableKeys.end();
    });
    std::string text;
    write(document, text);
    for (const std::string& file : layout.source_files) {
        const std::string bytes = read_file(file);
        fmt::format_to(std::back_inserter(text), "{}:", bytes.size());
        text += bytes;
    }
    return fnv1a(text);
}

std::uint64_t print_hash(std::uint64_t panel, std::string_view version, const PlannedShot& plan,
                         const Portfolio& portfolio) {
    const Viewpoint& view = plan.layout.viewpoints.front();
    std::string words = number_words(view.eye_mm) + number_words(view.look_at_mm);
    words += fmt::format("{} {} {} {} {} {} {}", view.view_width_mm, static_cast<int>(view.perspective),
                         plan.lens.aperture_mm, plan.lens.focus_mm, portfolio.dpi, plan.title, plan.light);
    if (plan.in_room)
        for (const StandInPlace& thing : portfolio.scale)
            words += fmt::format(" {} {} {} {} {}", static_cast<int>(thing.what), thing.at_mm.x,
                                 thing.at_mm.y, thing.turn_deg, thing.height_mm);
    return fnv1a(words, scene_hash(panel, version, plan.picture));
}

}  // namespace rakelight
