#include "output/take_off/reckoning/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/take_off/reckoning/zone_order.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/opera.h"
#include "scene/reading/deliverable_section.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

constexpr std::array<std::string_view, kStuffs> kStuffWords{"sheet glass", "smalti", "stone",
                                                            "pebbles",     "slag",   "beads"};
const std::vector<PaperSize> kPapers{{"A4", {210, 297}}, {"A3", {297, 420}}, {"Letter", {215.9, 279.4}}};

void read_share(Section& in, std::optional<double>& target, std::string_view key) {
    double value = 0;
    if (in.set(value, key)) target = value;
}

void read_mass(Section& in, std::optional<double>& target, std::string_view key) {
    double value = 0;
    if (in.set(value, key)) target = value;
}

/// Calls `read(name, Section&)` for each entry of the mapping under `key`, whose names are to be of `known`.
template <class Read>
void for_each_named(Section& in, std::string_view key, const std::vector<std::string>& known,
                    const std::string& noun, Read&& read) {
    const YamlValue* value = in.find(key);
    if (!value) return;
    const Section entries(*value, in, key);
    if (value->shape != YamlValue::Shape::mapping) return;
    for (const YamlMember& entry : value->members) {
        const std::string path = entries.path(entry.key.text);
        if (std::find(known.begin(), known.end(), entry.key.text) == known.end()) {
            in.problems().add(entry.key, path,
                              "found " + rakelight::quoted(entry.key.text) + ", expected " + noun +
                                  " of this layout" + did_you_mean(entry.key.text, known));
            continue;
        }
        Section each(entry.value, entries, entry.key.text);
        if (entry.value.shape != YamlValue::Shape::mapping) continue;
        read(entry.key.text, each);
        each.finish();
    }
}

void read_waste(Section& in, TakeOffWishes& out) {
    for_mapping(in, "waste", [&](Section& waste) {
        for (std::size_t i = 0; i < kStuffs; ++i) read_share(waste, out.waste[i], kStuffWords[i]);
        waste.set(out.curve_waste, "curves");
    });
}

void read_hours(Section& in, TakeOffWishes& out) {
    for_mapping(in, "hours", [&](Section& hours) {
        for (const OpusRule& rule : opera()) {
            glm::dvec2 span;
            if (!hours.set(span, rule.word)) continue;
            if (span.x > span.y)
                hours.problem(rule.word, fmt::format("found {:g} to {:g} hours, expected the fewer first",
                                                     span.x, span.y));
            else
                out.hours[rule.opus] = {span.x, span.y};
        }
    });
}

void read_take_off(Section& in, const Layout& layout, TakeOffWishes& out) {
    std::size_t hand = static_cast<std::size_t>(out.hand);
    if (in.set_word(hand, "hand")) out.hand = static_cast<Hand>(hand);
    read_waste(in, out);
    in.set(out.spare_share, "spare");
    in.set(out.least_spare, "least spare");
    in.set(out.sheet_mm, "sheet");
    in.set(out.bag_g, "bag");
    in.set(out.bed_waste, "bed waste");
    in.set(out.bed_rise, "bed rise");
    read_hours(in, out);
    std::vector<std::string> stock;
    for (const Material& m : layout.stock) stock.push_back(m.name);
    for_each_named(in, "buy", stock, "a material", [&](const std::string& name, Section& each) {
        Buying& buying = out.buying[name];
        glm::dvec2 sheet;
        if (each.set(sheet, "sheet")) buying.sheet_mm = sheet;
        read_mass(each, buying.bag_g, "bag");
        read_share(each, buying.waste, "waste");
        if (buying.sheet_mm && buying.bag_g)
            each.problem("bag", "found a sheet and a bag, expected one of them");
    });
}

void read_order(Section& in, const std::vector<std::string>& zones, ZoneWishes& out) {
    const YamlValue* list = in.find("order");
    if (!list) return;
    const std::string expected =
        "expected a list of pairs, as in [[foam, deep water]]: foam before deep water";
    if (list->shape != YamlValue::Shape::list) {
        in.problem("order", "found " + found(*list) + ", " + expected);
        return;
    }
    for (std::size_t i = 0; i < list->items.size(); ++i) {
        const YamlValue& item = list->items[i];
        const std::string path = fmt::format("{}[{}]", in.path("order"), i + 1);
        if (item.shape != YamlValue::Shape::list || item.items.size() != 2) {
            in.problems().add(item, path, "found " + found(item) + ", " + expected);
            continue;
        }
        bool good = true;
        for (const YamlValue& name : item.items)
            if (std::find(zones.begin(), zones.end(), name.text) == zones.end()) {
                in.problems().add(name, path,
                                  "found " + rakelight::quoted(name.text) +
                                      ", expected a grout zone of this layout" +
                                      did_you_mean(name.text, zones));
                good = false;
            }
        if (good && item.items[0].text == item.items[1].text) {
            in.problems().add(item, path, "found a zone before itself, expected two zones");
            good = false;
        }
        if (good) out.order.push_back({item.items[0].text, item.items[1].text, in.problems().place_of(item)});
    }
    if (const auto round = cycle_of_wishes(zones, out.order); !round.empty())
        in.problem("order", fmt::format("found {}, which goes round in a circle; expected an order that can "
                                        "be kept",
                                        fmt::join(round, " before ")));
}

void read_zones(Section& in, const std::vector<Field>& fields, ZoneWishes& out) {
    const std::vector<std::string> zones = zone_names(fields);
    in.set(out.waste, "waste");
    in.set(out.small_waste, "small waste");
    read_mass(in, out.spare_g, "spare grout");
    in.set(out.water, "water");
    in.set(out.most_batch_g, "largest batch");
    std::size_t seal = out.pre_seal;
    if (in.set_word(seal, "pre-seal")) out.pre_seal = seal != 0;
    in.set(out.overlap_mm, "overlap");
    in.set(out.tape_mm, "tape");
    std::size_t paper = 0;
    if (in.set_word(paper, "paper")) out.paper = kPapers[paper];
    read_order(in, zones, out);
    for_each_named(in, "each", zones, "a grout zone", [&](const std::string& name, Section& each) {
        ZoneWish& wish = out.each[name];
        read_share(each, wish.waste, "waste");
        read_share(each, wish.water, "water");
        read_mass(each, wish.spare_g, "spare grout");
    });
}

void read_hanging(Section& in, const Panel& panel, HangingWishes& out) {
    in.set(out.gap_mm, "gap");
    double length = 0;
    if (in.set(length, "points apart")) {
        double narrowest = panel.width_mm;
        for (const PanelSpan& span : panel_spans(panel)) narrowest = std::min(narrowest, span.width_mm());
        if (length > narrowest)
            in.problem("points apart",
                       fmt::format("found {:g} mm, expected at most the panel's width of {:g} mm", length,
                                   narrowest));
        out.apart_mm = length;
    }
    if (in.set(length, "lever")) out.lever_mm = length;
    in.set(out.factor, "safety factor");
    int struts = 0;
    if (in.set(struts, "struts")) out.struts = struts;
    in.set(out.strut_mm, "strut");
    in.set(out.strut_kg_per_m3, "strut density");
    const YamlValue* places = in.find("place");
    if (!places) return;
    const std::vector<YamlValue> one{*places};
    for (const YamlValue& item : places->shape == YamlValue::Shape::list ? places->items : one) {
        if (std::find(kHangingPlaces.begin(), kHangingPlaces.end(), item.text) != kHangingPlaces.end())
            out.places.push_back(item.text);
        else
            in.problems().add(
                item, in.path("place"),
                fmt::format("found {}, expected one of {}{}", found(item), fmt::join(kHangingPlaces, ", "),
                            did_you_mean(item.text, kHangingPlaces)));
    }
}

}  // namespace

std::vector<std::string> zone_names(const std::vector<Field>& fields) {
    std::vector<std::string> names;
    for (const Field& field : fields)
        if (field.grout && std::find(names.begin(), names.end(), field.zone) == names.end())
            names.push_back(field.zone);
    return names;
}

const PaperSize* paper_size(std::string_view name) {
    const auto alike = [](char a, char b) { return std::tolower(a) == std::tolower(b); };
    const auto it = std::find_if(kPapers.begin(), kPapers.end(), [&](const PaperSize& paper) {
        return std::equal(name.begin(), name.end(), paper.name.begin(), paper.name.end(), alike);
    });
    return it == kPapers.end() ? nullptr : &*it;
}

WorkshopWishes read_workshop(const Layout& layout) {
    WorkshopWishes shop;
    std::vector<Problem> problems;
    const auto section = [&](std::string_view key, auto&& read) {
        try {
            read_deliverable(layout, key, read);
        } catch (const LayoutError& error) {
            problems.insert(problems.end(), error.problems().begin(), error.problems().end());
        }
    };
    section("take-off", [&](Section& in) { read_take_off(in, layout, shop.take_off); });
    section("zones", [&](Section& in) { read_zones(in, layout.fields, shop.zones); });
    section("hanging", [&](Section& in) { read_hanging(in, layout.panel, shop.hanging); });
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return shop;
}

}  // namespace rakelight
