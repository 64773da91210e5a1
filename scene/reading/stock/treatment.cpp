#include "scene/reading/stock/treatment.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "materials/stock/finish.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr std::size_t kMostFinishes = 6;

void lay_finish(Section& in, const YamlValue& value, const std::string& key, Material& m) {
    const auto& words = finish_words();
    if (value.shape != YamlValue::Shape::scalar) {
        in.problems().add(value, key,
                          fmt::format("found {}, expected one of {}", found(value), fmt::join(words, ", ")));
        return;
    }
    const auto at = std::find(words.begin(), words.end(), value.text);
    if (at == words.end()) {
        in.problems().add(value, key,
                          fmt::format("found {}, expected one of {}{}", quoted(value.text),
                                      fmt::join(words, ", "), did_you_mean(value.text, words)));
        return;
    }
    const auto finish = static_cast<Finish>(at - words.begin());
    if (finish == Finish::raw && m.kind != Kind::timber)
        in.problems().add(value, key, "found raw of " + m.name + ", expected a timber");
    m = finished(std::move(m), finish);
}

void read_leaf(Section& in, Material& m) {
    std::size_t leaf = static_cast<std::size_t>(m.leaf);
    if (in.set_word(leaf, "leaf")) m.leaf = static_cast<Leaf>(leaf);
    const bool deep = in.set(m.leaf_depth_mm, "leaf depth");
    const bool rough = in.set(m.leaf_roughness, "leaf roughness");
    if (m.leaf == Leaf::none) {
        if (deep)
            in.problem("leaf depth", "found leaf depth without leaf, expected leaf: gold, silver or copper");
        if (rough)
            in.problem("leaf roughness",
                       "found leaf roughness without leaf, expected leaf: gold, silver or copper");
        return;
    }
    if (deep && m.opaque)
        in.problem("leaf depth",
                   "found leaf depth of an opaque material, whose leaf lies on top, expected none");
    if (m.backed)
        in.problem("leaf",
                   "found leaf under a stack that an opaque sheet closes, expected a translucent one");
}

}  // namespace

std::string read_finishes(Section& in, Material& m) {
    const YamlValue* finish = in.find("finish");
    if (!finish) return "";
    const std::string key = in.path("finish");
    if (finish->shape != YamlValue::Shape::list) {
        lay_finish(in, *finish, key, m);
        return finish->text;
    }
    if (finish->items.size() > kMostFinishes) {
        in.problem("finish", "found " + found(*finish) + ", expected at most 6");
        return "";
    }
    std::vector<std::string> words;
    for (std::size_t i = 0; i < finish->items.size(); ++i) {
        lay_finish(in, finish->items[i], fmt::format("{}[{}]", key, i + 1), m);
        words.push_back(finish->items[i].text);
    }
    return fmt::format("{}", fmt::join(words, " and "));
}

void read_treatment(Section& in, Material& m, bool gilding) {
    double pores = 0;
    if (in.set(pores, "pores")) {
        if (m.opaque)
            m = porous(std::move(m), pores);
        else
            in.problem("pores", "found pores of a translucent material, expected an opaque one");
    }
    read_finishes(in, m);
    if (gilding) read_leaf(in, m);
}

}  // namespace rakelight
