#include "scene/reading/field/drawn_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <sstream>
#include <utility>

#include "scene/text/diagnostics.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

constexpr std::size_t kMostUnusedTold = 12;
constexpr std::size_t kMostNames = 2000;

bool is_outline(const DrawnPath& path) {
    return std::any_of(path.lines.begin(), path.lines.end(),
                       [](const DrawnLine& line) { return line.closed; });
}

/// By the even-odd rule.
bool encloses(const DrawnPath& path, const glm::dvec2& p) {
    bool in = false;
    for (const DrawnLine& line : path.lines) {
        if (!line.closed) continue;
        for (std::size_t i = 0, k = line.points_mm.size() - 1; i < line.points_mm.size(); k = i++) {
            const glm::dvec2 &a = line.points_mm[i], &b = line.points_mm[k];
            if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) in = !in;
        }
    }
    return in;
}

/// Of the label "spot red", or "spot green red", of a region's outline.
std::vector<std::string> inks_of(const DrawnPath& path) {
    std::vector<std::string> inks;
    if (!path.name.label.starts_with("spot ")) return inks;
    std::istringstream words(path.name.label.substr(5));
    for (std::string word; words >> word;) inks.push_back(word);
    return inks;
}

}  // namespace

DrawnSheet::DrawnSheet(Drawing drawing, const std::vector<std::string>& asked,
                       const std::vector<std::string>& followed)
    : drawing_(std::move(drawing)), given_(true), used_(drawing_.paths.size(), 0) {
    std::unordered_map<std::string, int> wanted;
    for (const auto* names : {&asked, &followed})
        for (const std::string& name : *names)
            if (wanted.emplace(name, static_cast<int>(wanted.size())).second) asked_.push_back(name);
    const std::set<std::string> as_ground(asked.begin(), asked.end());
    const auto number_of = [&](const std::string& word) {
        const auto at = wanted.find(word);
        return word.empty() || at == wanted.end() ? -1 : at->second;
    };
    std::vector<char> labels(wanted.size(), 0);
    const auto each_name = [&](const auto& visit) {
        for (const DrawnGroup& group : drawing_.groups) visit(group.name);
        for (const DrawnPath& path : drawing_.paths) visit(path.name);
    };
    each_name([&](const DrawnName& name) {
        if (const int n = number_of(name.label); n >= 0) labels[static_cast<std::size_t>(n)] = 1;
    });
    const auto asked_for = [&](const DrawnName& name) {
        if (const int n = number_of(name.label); n >= 0) return n;
        const int n = number_of(name.id);
        return n >= 0 && !labels[static_cast<std::size_t>(n)] ? n : -1;
    };
    each_name([&](const DrawnName& name) {
        if (const int n = asked_for(name); n >= 0)
            known_.emplace(labels[static_cast<std::size_t>(n)] ? name.label : name.id, n);
    });
    std::set<std::string> names;
    each_name([&](const DrawnName& name) {
        for (const std::string& each : {name.label, name.id})
            if (!each.empty() && names.size() < kMostNames) names.insert(each);
    });
    names_.assign(names.begin(), names.end());
    const auto is_ground = [&](int n) {
        return n >= 0 && as_ground.contains(asked_[static_cast<std::size_t>(n)]);
    };
    std::vector<int> group_owner, group_ground;  // parents come before their children
    const auto of_group = [](const std::vector<int>& owners, int group) {
        return group < 0 ? -1 : owners[static_cast<std::size_t>(group)];
    };
    for (const DrawnGroup& group : drawing_.groups) {
        const int own = asked_for(group.name);
        group_owner.push_back(own >= 0 ? own : of_group(group_owner, group.parent));
        group_ground.push_back(is_ground(own) ? own : of_group(group_ground, group.parent));
    }
    for (const DrawnPath& path : drawing_.paths) {
        const int own = asked_for(path.name);
        owner_.push_back(own >= 0 ? own : of_group(group_owner, path.group));
        const bool closed = std::any_of(path.lines.begin(), path.lines.end(),
                                        [](const DrawnLine& line) { return line.closed; });
        ground_owner_.push_back(!closed ? -1 : is_ground(own) ? own : of_group(group_ground, path.group));
    }
}

std::vector<std::string> DrawnSheet::takers_within(const std::string& name) const {
    std::set<std::string> takers;
    const auto called = [&](const DrawnName& n) { return n.label == name || n.id == name; };
    for (std::size_t p = 0; p < owner_.size(); ++p) {
        bool within = called(drawing_.paths[p].name);
        for (int g = drawing_.paths[p].group; g >= 0 && !within;
             g = drawing_.groups[static_cast<std::size_t>(g)].parent)
            within = called(drawing_.groups[static_cast<std::size_t>(g)].name);
        if (within && owner_[p] >= 0 && asked_[static_cast<std::size_t>(owner_[p])] != name)
            takers.insert(asked_[static_cast<std::size_t>(owner_[p])]);
    }
    return {takers.begin(), takers.end()};
}

DrawnSheet DrawnSheet::broken() {
    DrawnSheet sheet;
    sheet.given_ = sheet.broken_ = true;
    return sheet;
}

std::vector<const DrawnPath*> DrawnSheet::take(const std::string& name) {
    std::vector<const DrawnPath*> taken;
    const auto number = known_.find(name);
    if (number == known_.end()) return taken;
    for (std::size_t p = 0; p < owner_.size(); ++p)
        if (owner_[p] == number->second || ground_owner_[p] == number->second) {
            taken.push_back(&drawing_.paths[p]);
            used_[p] = 1;
        }
    return taken;
}

std::vector<const DrawnPath*> DrawnSheet::take_groups(const std::function<bool(const DrawnPath&)>& wanted,
                                                      bool& again) {
    std::set<int> groups;
    for (const DrawnPath& path : drawing_.paths)
        if (path.group >= 0 && is_outline(path) && wanted(path)) groups.insert(path.group);
    std::vector<const DrawnPath*> taken;
    for (std::size_t p = 0; p < used_.size(); ++p) {
        if (!groups.contains(drawing_.paths[p].group)) continue;
        again = again || used_[p];
        used_[p] = 1;
        taken.push_back(&drawing_.paths[p]);
    }
    return taken;
}

std::vector<const DrawnPath*> DrawnSheet::take_region(const glm::dvec2& at_mm, bool& again) {
    return take_groups([&](const DrawnPath& path) { return encloses(path, at_mm); }, again);
}

std::vector<const DrawnPath*> DrawnSheet::take_spotted(const std::string& ink, bool& again) {
    return take_groups(
        [&](const DrawnPath& path) {
            const auto inks = inks_of(path);
            return std::find(inks.begin(), inks.end(), ink) != inks.end();
        },
        again);
}

std::vector<std::string> DrawnSheet::spots() const {
    std::set<std::string> all;
    for (const DrawnPath& path : drawing_.paths)
        for (std::string& ink : inks_of(path)) all.insert(std::move(ink));
    return {all.begin(), all.end()};
}

std::vector<std::string> DrawnSheet::unused() const {
    struct Rest {
        std::string name;
        Place first;
        int count = 0;
    };
    std::vector<Rest> rests;  // of one group each, or of one path that has none
    std::unordered_map<int, std::size_t> of_group;
    for (std::size_t p = 0; p < used_.size(); ++p) {
        if (used_[p]) continue;
        const DrawnPath& path = drawing_.paths[p];
        if (const auto at = of_group.find(path.group); path.group >= 0 && at != of_group.end()) {
            ++rests[at->second].count;
            continue;
        }
        std::string name = path.name.shown();
        for (int g = path.group; g >= 0 && (name.empty() || g == path.group);
             g = drawing_.groups[static_cast<std::size_t>(g)].parent)
            if (const auto& called = drawing_.groups[static_cast<std::size_t>(g)].name.shown();
                !called.empty())
                name = called;
        if (path.group >= 0) of_group.emplace(path.group, rests.size());
        rests.push_back({name, path.place, 1});
    }
    std::vector<std::string> told = told_;
    for (const Rest& rest : rests) {
        if (told.size() == told_.size() + kMostUnusedTold) {
            const Place whole{drawing_.file, 0, 0};
            told.push_back(to_string(
                {whole, "", fmt::format("and {} more that no field takes", rests.size() - kMostUnusedTold)}));
            break;
        }
        told.push_back(
            to_string({rest.first, printable(rest.name),
                       drawing_.scanned ? std::string("found a region that no field takes; scan.png, by "
                                                      "`rakelight check`, shows where")
                       : rest.count > 1 ? fmt::format("found {} paths that no field takes", rest.count)
                                        : std::string("found a path that no field takes")}));
    }
    return told;
}

}  // namespace rakelight
