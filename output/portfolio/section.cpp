#include "output/portfolio/section.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/text/nearest_word.h"
#include "scene/text/units.h"

namespace rakelight {

namespace {

std::string list_text(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, ", "));
}

void read_show(Section& in, Portfolio& p, const Layout& layout) {
    const YamlValue* list = in.find("show");
    if (!list) return;
    if (list->shape != YamlValue::Shape::list || list->items.empty()) {
        in.problem("show", "found " + found(*list) + ", expected a list of " + list_text(kShotWords));
        return;
    }
    std::vector<Shot> show;
    for (const YamlValue& item : list->items) {
        const auto word = std::find(kShotWords.begin(), kShotWords.end(), item.text);
        const auto shot = static_cast<Shot>(word - kShotWords.begin());
        std::string problem;
        if (item.shape != YamlValue::Shape::scalar || word == kShotWords.end())
            problem = "found " + found(item) + ", expected one of " + list_text(kShotWords) +
                      did_you_mean(item.text, kShotWords);
        else if (std::find(show.begin(), show.end(), shot) != show.end())
            problem = "found " + rakelight::quoted(item.text) + " again, expected each picture once";
        else
            problem = why_no_shot(shot, p, layout);
        if (problem.empty())
            show.push_back(shot);
        else
            in.problems().add(item, in.path("show"), std::move(problem));
    }
    p.show = std::move(show);
}

void read_light(Section& in, Portfolio& p, const Layout& layout) {
    for_mapping(in, "light", [&](Section& lights) {
        const std::vector<std::string> choices = light_choices(layout.set_ups);
        for (std::size_t i = 0; i < kShotWords.size(); ++i) {
            std::string name;
            if (!lights.set(name, kShotWords[i])) continue;
            if (std::find(choices.begin(), choices.end(), name) == choices.end()) {
                lights.problem(kShotWords[i], "found " + rakelight::quoted(name) + ", expected one of " +
                                                  list_text(choices) + did_you_mean(name, choices));
                continue;
            }
            try {
                with_light(layout, name);
                p.light[static_cast<Shot>(i)] = name;
            } catch (const LayoutError& error) {
                lights.problem(kShotWords[i], error.problems().front().text);
            }
        }
    });
}

void read_details(Section& in, Portfolio& p, const Panel& panel) {
    if (!in.has("details")) return;
    p.details.clear();
    for_each_item(in, "details", [&](Section& item) {
        CloseUp close;
        item.require("at", "where on the panel its middle is: [x, y]");
        if (item.set(close.at_mm, "at") && (close.at_mm.x < 0 || close.at_mm.x > panel.width_mm ||
                                            close.at_mm.y < 0 || close.at_mm.y > panel.height_mm))
            item.problem("at", fmt::format("found [{:.6g}, {:.6g}], expected a point of the panel, [0, 0] to "
                                           "[{:.6g}, {:.6g}] mm",
                                           close.at_mm.x, close.at_mm.y, panel.width_mm, panel.height_mm));
        item.set(close.width_mm, "width");
        p.details.push_back(close);
    });
}

void read_scale(Section& in, Portfolio& p, const Layout& layout) {
    if (!in.has("scale figures")) return;
    p.scale_figures.clear();
    for_each_item(in, "scale figures", [&](Section& item) {
        StandInPlace place;
        std::size_t what = 0;
        item.require("what", "one of " + list_text(kStandInWords));
        const bool known = item.set_word(what, "what");
        place.what = static_cast<StandIn>(what);
        item.require("at", "where it stands on the floor: [x, z]");
        bool good = item.set(place.at_mm, "at");
        item.set(place.turn_deg, "turn");
        const bool figure = place.what == StandIn::figure;
        item.set(place.height_mm, "height", figure ? Range{800, 2200} : Range{200, 1300});
        if (!known || !good) return;
        if (const std::string text = why_no_stand_in(place, layout); !text.empty()) item.problem("at", text);
        p.scale_figures.push_back(place);
    });
}

void read_lens(Section& in, Portfolio& p) {
    for_mapping(in, "lens", [&](Section& lens) {
        lens.set(p.lens.focal_mm, "focal length");
        lens.set(p.lens.f_number, "f-number");
    });
}

void read_walk(Section& in, Portfolio& p, const Room& room) {
    for_mapping(in, "walk past", [&](Section& walk) {
        const double side_mm = room.width_mm / 2 - 50;
        walk.set(p.walk.from_mm, "from", {-side_mm, side_mm});
        walk.set(p.walk.to_mm, "to", {-side_mm, side_mm});
        walk.set(p.walk.steps, "steps");
        if (p.walk.from_mm == p.walk.to_mm)
            walk.problem("to", "found the place where the walk begins, expected another");
        walk.set(p.walk.distance_mm, "distance", {200, room.depth_mm - 100});
        walk.set(p.walk.eye_mm, "height", {500, room.height_mm - 100});
    });
}

void read_caption(Section& in, Portfolio& p) {
    for_mapping(in, "caption", [&](Section& caption) {
        Caption& c = p.caption;
        const std::pair<const char*, std::string*> keys[]{
            {"title", &c.title},         {"artist", &c.artist},       {"year", &c.year},
            {"materials", &c.materials}, {"edition", &c.edition},     {"inventory", &c.inventory},
            {"price", &c.price},         {"site", &c.site},           {"client", &c.client},
            {"credit", &c.credit},       {"statement", &c.statement}, {"date", &c.date}};
        for (const auto& [key, text] : keys) caption.set(*text, key);
    });
}

}  // namespace

Portfolio read_portfolio(Section& in, const Layout& layout) {
    Portfolio p = usual_portfolio(layout);
    read_light(in, p, layout);
    read_show(in, p, layout);
    if (double lux = 0; in.set(lux, "general light")) p.general_lux = lux;
    in.set(p.print_mm, "print");
    in.set(p.dpi, "dpi");
    if (const int side = print_px(p.print_mm, p.dpi); side > 16'384)
        in.problem("print",
                   fmt::format("found {:.6g} mm at {} dpi, which is {} pixels, expected at most 16384",
                               p.print_mm, p.dpi, side));
    in.set(p.grain, "grain");
    in.set(p.most_samples, "most samples");
    read_details(in, p, layout.panel);
    read_lens(in, p);
    read_scale(in, p, layout);
    read_walk(in, p, layout.room);
    read_caption(in, p);
    return p;
}

Portfolio read_portfolio(const Layout& layout) {
    Portfolio p;
    read_deliverable(layout, "portfolio", [&](Section& in) { p = read_portfolio(in, layout); });
    return p;
}

}  // namespace rakelight
