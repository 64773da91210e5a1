#include "scene/reading/field/halo.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/opus/opera.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr int kUsualRows = 2;  // common practice, no published source

void read_round(Section& halo, Field& field, std::span<const std::string> names) {
    const YamlValue* value = halo.find("round");
    if (!value) return;
    const std::vector<YamlValue> given = value->shape == Shape::list ? value->items : std::vector{*value};
    if (given.empty()) halo.problem("round", "found an empty list, expected the names of fields");
    for (const YamlValue& name : given) {
        if (name.shape != Shape::scalar || name.text == field.name ||
            std::ranges::find(names, name.text) == names.end())
            halo.problem("round", fmt::format("found {}, expected the name of another field{}", found(name),
                                              did_you_mean(name.text, names)));
        else
            field.halo_round.push_back(name.text);
    }
}

}  // namespace

std::vector<std::string> names_of_fields(Section& file) {
    std::vector<std::string> names;
    const YamlValue* list = file.find("fields");
    if (!list) return names;
    for (const YamlValue& field : list->items)
        for (const YamlMember& member : field.members)
            if (member.key.text == "name" && member.value.shape == Shape::scalar)
                names.push_back(member.value.text);
    return names;
}

void read_halo(Section& in, Field& field, std::span<const std::string> names) {
    const OpusRule& rule = rule_of(field.opus);
    field.halo_rows = rule.usual_halo;
    field.halo_at_panel_edge = rule.usual_halo > 0;  // its rows follow every edge
    if (const YamlValue* value = in.find("halo"); value && value->shape == Shape::mapping) {
        Section halo(*value, in, "halo");
        field.halo_rows = kUsualRows;
        halo.set(field.halo_rows, "rows");
        read_round(halo, field, names);
        std::size_t at_edge = field.halo_at_panel_edge && field.halo_round.empty() ? 1 : 0;
        halo.set_word(at_edge, "panel edge");
        field.halo_at_panel_edge = at_edge == 1;
        halo.finish();
    } else if (value) {
        in.set(field.halo_rows, "halo");
    }
    if (!rule.no_halo_is.empty() && field.halo_rows < 1)
        in.problem("halo",
                   fmt::format("found no halo rows in a field of {}, expected 1 or more; without them "
                               "it is {}",
                               rule.word, rule.no_halo_is));
    if (!rule.takes_halo && field.halo_rows > 0)
        in.problem("halo", fmt::format("found halo rows in a field of {}, which has no rows; lay them as a "
                                       "field of their own",
                                       rule.word));
}

}  // namespace rakelight
